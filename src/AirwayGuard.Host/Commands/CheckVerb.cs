using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Host.Commands;

/// <summary>Runs <c>check</c>: loads rule set and maps, reads the paths, judges, prints.</summary>
internal static class CheckVerb
{
    public static async Task<int> RunAsync(CheckRequest request, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var reading = ConfiguredFiles.Rules(request.Rules);
        if (reading.RuleSet is not { } rules)
        {
            RulesLint.Report(reading, errors);
            return ExitCodes.Usage;
        }

        if (SiteMaps.Load(request.Maps, errors) is not { } map)
        {
            return ExitCodes.Usage;
        }

        var inputs = new CheckInputs();
        await inputs.ReadAsync(request.Paths, stop);
        CheckReport report;
        if (request.Ledger is { } folder)
        {
            var opened = await CheckLedger.OpenAsync(folder, SystemClock.Instance, errors);
            if (opened is null)
            {
                return ExitCodes.Unreadable;
            }

            await using (opened)
            {
                report = await JudgeAsync(request, rules, map, inputs, new LedgerCheckChart(opened), stop);
            }
        }
        else
        {
            report = await JudgeAsync(request, rules, map, inputs, new MemoryCheckChart(), stop);
        }

        await PrintAsync(report, request.Format, output);
        return report.ExitCode;
    }

    private static async Task<CheckReport> JudgeAsync(
        CheckRequest request, RuleSet rules, CodeMap map, CheckInputs inputs, ICheckChart chart, CancellationToken stop) =>
        await new CheckRun(rules, new FhirArrivalReader(map), new OrderWordsReader(map), new ChartedText(map), chart)
            .RunAsync(inputs.Inputs, inputs.Problems, inputs.Problems.Count > 0, request.Settings, stop);

    private static async Task PrintAsync(CheckReport report, string format, TextWriter output)
    {
        switch (format)
        {
            case "json":
                using (var json = new MemoryStream())
                {
                    CheckReportJson.Write(report, json);
                    await output.WriteLineAsync(System.Text.Encoding.UTF8.GetString(json.ToArray()));
                }

                break;
            case "fhir":
                await output.WriteLineAsync(CheckReportFhir.Write(report, typeof(CheckVerb).Assembly.GetName().Version?.ToString(3) ?? "0"));
                break;
            default:
                CheckReportText.Write(report, output);
                break;
        }
    }
}
