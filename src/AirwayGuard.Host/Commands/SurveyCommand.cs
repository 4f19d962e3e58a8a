using System.CommandLine;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Rules;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Surveying;

namespace AirwayGuard.Host.Commands;

/// <summary><c>survey [PATH…]</c>: what each wall outlet was last read at, unit by unit, from FHIR JSON or from the ledger; also while the service runs.</summary>
internal static class SurveyCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var paths = new Argument<string[]>("PATH") { Description = "Files of FHIR JSON or NDJSON, folders of them, or - for standard input. Without one: the ledger.", Arity = ArgumentArity.ZeroOrMore };
        paths.RefuseOptions("survey");
        var data = DataFolder.Option();
        var rules = new Option<string?>("--rules") { Description = "A shipped rule set or a file. Default: with a ledger the service's own, else strict-ranges." };
        var asOf = new Option<string?>("--as-of") { Description = "Survey as of this time (ISO 8601 with offset); what begins later is left out. Default: now, or of files the latest time they carry." };
        var format = new Option<string>("--format") { Description = "text (default) or json.", DefaultValueFactory = _ => "text" };
        format.Only("text", "json");
        var maps = new Option<string[]>("--map") { Description = "A site's ConceptMap (FHIR JSON) besides the shipped ones, for files; may be given several times." };
        var survey = new Command("survey", "Tells of each wall outlet, unit by unit, what it was last read at, when, and what the checks of it say.") { paths, data, rules, asOf, format, maps };
        survey.SetAction(async (parsed, stop) =>
        {
            var (given, folder, files) = (parsed.GetValue(paths) ?? [], parsed.GetValue(data), parsed.GetValue(maps) ?? []);
            DateTimeOffset? at = null;
            if (parsed.GetValue(asOf) is { } text)
            {
                if (!AsOfTime.TryRead(text, out var time))
                {
                    return await RefuseAsync(AsOfTime.Unreadable("survey"), errors, ExitCodes.Usage);
                }

                at = time;
            }

            if (given.Length > 0 && folder is not null)
            {
                return await RefuseAsync(new Problem(Codes.UsageWrong, "survey", "give PATH or --data, not both"), errors, ExitCodes.Usage);
            }

            if (given.Length == 0 && files.Length > 0)
            {
                return await RefuseAsync(new Problem(Codes.UsageWrong, "survey --map", "a ledger holds what was read by the service's own maps; it goes with PATH only"), errors, ExitCodes.Usage);
            }

            return given.Length > 0
                ? await OfFilesAsync(given, files, parsed.GetValue(rules) ?? ShippedRuleSets.Default, at, parsed.GetValue(format)!, output, errors, stop)
                : await OfLedgerAsync(folder, parsed.GetValue(rules), at, parsed.GetValue(format)!, output, errors, stop);
        });
        return survey;
    }

    private static async Task<int> OfFilesAsync(
        string[] paths, string[] maps, string rules, DateTimeOffset? asOf, string format, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        if (Load(rules, errors) is not { } set || SiteMaps.Load(maps, errors) is not { } map)
        {
            return ExitCodes.Usage;
        }

        var inputs = new CheckInputs();
        await inputs.ReadAsync(paths, stop);
        var problems = new List<Problem>(inputs.Problems);
        var chart = new GivenSurveyChart(inputs.Inputs, new FhirArrivalReader(map), problems);
        var at = asOf ?? (chart.LatestAt is { } latest ? new DateTimeOffset(latest, TimeSpan.Zero) : null);
        var exit = await PrintAsync(await new SurveyRun(set, chart).RunAsync(at, stop), format, output);
        foreach (var problem in problems)
        {
            exit = await RefuseAsync(problem, errors, ExitCodes.Unreadable);
        }

        return exit;
    }

    private static async Task<int> OfLedgerAsync(string? data, string? rules, DateTimeOffset? asOf, string format, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var (folder, plan) = DataFolder.Of(data);
        if (folder is null)
        {
            return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
        }

        if ((rules is null ? plan?.Basis.Rules : null) is not { } set && (set = Load(rules ?? ShippedRuleSets.Default, errors)) is null)
        {
            return ExitCodes.Usage;
        }

        try
        {
            await using var ledger = SqliteLedgerReader.Open(folder);
            return await PrintAsync(await new SurveyRun(set, new LedgerSurveyChart(ledger)).RunAsync(asOf ?? Now(), stop), format, output);
        }
        catch (LedgerException refused)
        {
            return await RefuseAsync(refused.Problem, errors, ExitCodes.Unreadable);
        }
    }

    private static RuleSet? Load(string rules, TextWriter errors)
    {
        var reading = ConfiguredFiles.Rules(rules);
        if (reading.RuleSet is null)
        {
            RulesLint.Report(reading, errors);
        }

        return reading.RuleSet;
    }

    private static async Task<int> PrintAsync(SurveyReport report, string format, TextWriter output)
    {
        if (format == "json")
        {
            using var json = new MemoryStream();
            SurveyJson.Write(report, json);
            await output.WriteLineAsync(Encoding.UTF8.GetString(json.ToArray()));
        }
        else
        {
            SurveyText.Write(report, output);
        }

        return report.Found ? ExitCodes.Found : ExitCodes.Clean;
    }

    private static async Task<int> RefuseAsync(Problem problem, TextWriter errors, int exit)
    {
        await errors.WriteLineAsync(ProblemLine.Of(problem));
        return exit;
    }

    // To the second: nobody reads an outlet more exactly.
    private static DateTimeOffset Now() => DateTimeOffset.FromUnixTimeSeconds(SystemClock.Instance.GetUtcNow().ToUnixTimeSeconds());
}
