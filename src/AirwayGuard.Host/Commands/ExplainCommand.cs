using System.CommandLine;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Host.Service;
using AirwayGuard.Rules;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Explaining;

namespace AirwayGuard.Host.Commands;

/// <summary><c>explain FINDING</c>: on what a finding rests and what became of it, judged again from the ledger; also while the service runs.</summary>
internal static class ExplainCommand
{
    public static Command Build(TextWriter output, TextWriter errors)
    {
        var finding = new Argument<string>("FINDING") { Description = "The identifier of a Flag or DetectedIssue (urn:uuid: or plain), or its first digits." };
        var data = DataFolder.Option();
        var format = new Option<string>("--format") { Description = "text (default) or json.", DefaultValueFactory = _ => "text" };
        format.Only("text", "json");
        var rules = new Option<string?>("--rules") { Description = "The rule set to judge again by: a shipped one or a file. Default: the one it was judged by, from the settings, the shipped ones or the ledger." };
        var explain = new Command("explain", "Explains a finding and judges it again from the ledger, also while the service runs.") { finding, data, format, rules };
        explain.SetAction(async (parsed, stop) =>
        {
            if (DigitsOf(parsed.GetValue(finding)!) is not { } digits)
            {
                return await RefuseAsync(new Problem(Codes.FindingMalformed, "FINDING", "It holds something else than a UUID or its first digits."), errors, ExitCodes.Usage);
            }

            var (folder, plan) = DataFolder.Of(parsed.GetValue(data));
            if (folder is null)
            {
                return await RefuseAsync(DataFolder.NotNamed, errors, ExitCodes.Usage);
            }

            try
            {
                await using var ledger = SqliteLedgerReader.Open(folder);
                return await ExplainAsync(ledger, digits, parsed.GetValue(rules), plan, parsed.GetValue(format)!, output, errors, stop);
            }
            catch (LedgerException refused)
            {
                return await RefuseAsync(refused.Problem, errors, ExitCodes.Unreadable);
            }
        });
        return explain;
    }

    private static async Task<int> ExplainAsync(
        SqliteLedgerReader ledger, string digits, string? rules, ServicePlan? plan, string format, TextWriter output, TextWriter errors, CancellationToken stop)
    {
        var records = await ledger.FindAsync(digits, 2, stop);
        if (records is not [var record])
        {
            return records.Count == 0
                ? await RefuseAsync(new Problem(Codes.FindingUnknown, "FINDING", "The ledger holds no finding of this identifier."), errors, ExitCodes.Unreadable)
                : await RefuseAsync(new Problem(Codes.FindingAmbiguous, "FINDING", "More than one finding of the ledger begins so."), errors, ExitCodes.Usage);
        }

        if (rules is not null && ConfiguredFiles.Rules(rules) is { RuleSet: null } faulty)
        {
            RulesLint.Report(faulty, errors);
            return ExitCodes.Usage;
        }

        var set = rules is not null ? ConfiguredFiles.Rules(rules).RuleSet : await RulesOfAsync(ledger, record, plan, stop);
        var told = await TellAsync(ledger, record, set, plan, stop);
        await PrintAsync(told, format, output);
        return told.Again switch
        {
            { IsSame: true } => ExitCodes.Clean,
            { } => await RefuseAsync(
                new Problem(Codes.FindingDiffers, "FINDING", $"Differs: {string.Join("; ", told.Again.Differences.Select(one => one.Split(':')[0]).Distinct(StringComparer.Ordinal))}."),
                errors, ExitCodes.Found),
            _ => await RefuseAsync(
                set is null
                    ? new Problem(Codes.FindingRulesMissing, "FINDING", "Neither the settings, the shipped rule sets nor the ledger hold the document it was judged by.")
                    : new Problem(Codes.FindingPointMissing, "FINDING", "The ledger names no such judgement."),
                errors, ExitCodes.Unreadable),
        };
    }

    // What was to be done where the age is unknown is part of the basis, and its hash does not give it back: where the settings are
    // not those of the time, either choice may have been in force.
    private static async Task<Explanation> TellAsync(SqliteLedgerReader ledger, FindingRecord record, RuleSet? set, ServicePlan? plan, CancellationToken stop)
    {
        var run = new ExplainRun(ledger, new ChartedText(plan?.Map));
        var first = plan?.Basis.UnknownAge ?? UnknownAge.CannotTell;
        var told = await run.RunAsync(record, set, first, stop);
        if (told.Again is not { IsSame: false } || plan?.Basis.Names.BasisSha256 == told.BasisSha256)
        {
            return told;
        }

        var other = await run.RunAsync(record, set, first == UnknownAge.CannotTell ? UnknownAge.StrictestBand : UnknownAge.CannotTell, stop);
        return other.Again is { IsSame: true } ? other : told;
    }

    // The very document that was in force: by its hash, never by its name.
    private static async Task<RuleSet?> RulesOfAsync(SqliteLedgerReader ledger, FindingRecord record, ServicePlan? plan, CancellationToken stop)
    {
        var content = FindingContent.Read(record.Content.Span);
        var sha = (content.Said?.Basis ?? content.Basis)?.RuleSetSha256;
        if (plan is not null && (sha is null ? record.BasisSha256 == plan.Basis.Names.BasisSha256 : sha == plan.Basis.Rules.Sha256))
        {
            return plan.Basis.Rules;
        }

        return ShippedRuleSets.Names.Select(name => ShippedRuleSets.Load(name).RuleSet).FirstOrDefault(set => set?.Sha256 == sha)
            ?? (sha is not null && await ledger.RulesAsync(sha, stop) is { } kept ? RuleSetReader.Read(kept.Utf8, "ledger").RuleSet : null);
    }

    /// <returns>4 to 32 lower-case hexadecimal digits; null for anything else.</returns>
    internal static string? DigitsOf(string finding)
    {
        var text = finding.Trim();
        text = text.StartsWith("urn:uuid:", StringComparison.OrdinalIgnoreCase) ? text["urn:uuid:".Length..] : text;
        var digits = text.Replace("-", "", StringComparison.Ordinal).ToLowerInvariant();
        return digits.Length is >= 4 and <= 32 && digits.All(char.IsAsciiHexDigit) ? digits : null;
    }

    private static async Task PrintAsync(Explanation told, string format, TextWriter output)
    {
        if (format == "json")
        {
            using var json = new MemoryStream();
            ExplanationJson.Write(told, json);
            await output.WriteLineAsync(Encoding.UTF8.GetString(json.ToArray()));
            return;
        }

        ExplanationText.Write(told, output);
    }

    private static async Task<int> RefuseAsync(Problem problem, TextWriter errors, int exit)
    {
        await errors.WriteLineAsync(ProblemLine.Of(problem));
        return exit;
    }
}
