using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>One finding that stands, in words.</summary>
/// <param name="Title">The check, for a person.</param>
/// <param name="Say">Value against limit.</param>
/// <param name="Since">When what is judged happened, of a spell its first breach: as charted, however late it became known.</param>
/// <param name="Clears">What would end it, as a sentence without its stop.</param>
internal sealed record StandingRow(string Patient, string Check, string Title, string Severity, string Say, DateTimeOffset Since, string Clears)
{
    /// <summary>It stands until charting ends it, and raised a Flag; else it belongs to the one pass, session, setting or order it was found in.</summary>
    public bool Stands { get; init; } = true;

    /// <summary>It became known late: of a spell, that of its latest breach.</summary>
    public bool Late { get; init; }

    /// <summary>Why it is recorded and not shown, in words; empty where it is shown.</summary>
    public string Withheld { get; init; } = "";

    /// <summary>Says its check only.</summary>
    public override string ToString() => $"StandingRow({Check})";
}

/// <summary>Reads from the ledger what stands, and what was found lately by checks that do not stand.</summary>
internal static class StandingFindings
{
    /// <summary>Hours back from now within which what does not stand is told; nothing later would end it, so older ones are left to the record.</summary>
    public const int Lately = 24;

    /// <returns>Highest severity first, then by patient.</returns>
    public static async Task<IReadOnlyList<StandingRow>> ReadAsync(ILedger ledger, RuleSet rules, bool live, DateTimeOffset now, CancellationToken stop)
    {
        var rows = new List<(Severity Severity, StandingRow Row)>();
        await foreach (var history in ledger.HistoryAsync(new HistoryRange(new TimeRange(long.MaxValue, long.MaxValue), Position.Never, 0, 1), stop))
        {
            using (history.Facts)
            {
                var records = await ledger.FindingsAsync(history.Patient, stop);
                var late = LateSpells(records);
                foreach (var record in records)
                {
                    if (record.State == FindingState.Open && RowOf(ledger, rules, record) is { } one && (one.Row.Stands || now - one.Row.Since <= TimeSpan.FromHours(Lately)))
                    {
                        rows.Add((one.Severity, one.Row with { Late = record.Late || late.Contains(record.Key), Withheld = WhyWithheld(record, rules, live) }));
                    }
                }
            }
        }

        return [.. rows
            .OrderByDescending(one => one.Severity)
            .ThenBy(one => one.Row.Patient, StringComparer.Ordinal)
            .ThenBy(one => one.Row.Check, StringComparer.Ordinal)
            .ThenBy(one => one.Row.Since)
            .Select(one => one.Row)];
    }

    // A spell is as late as its latest breach.
    private static HashSet<Guid> LateSpells(IReadOnlyList<FindingRecord> records) =>
        [.. records
            .Where(record => record.Kind == FindingKind.Occurrence && record.Parent != Guid.Empty && record.State != FindingState.Withdrawn)
            .GroupBy(record => record.Parent)
            .Where(spell => spell.MaxBy(record => record.Latest)!.Late)
            .Select(spell => spell.Key)];

    // Where nothing at all is written to the server, being silent is no news of a single finding.
    private static string WhyWithheld(FindingRecord record, RuleSet rules, bool live)
    {
        var content = FindingContent.Read(record.Content.Span);
        return content.Withheld switch
        {
            Withholding.SaidByAnotherCheck => rules.Find(record.Check) is { WithheldBy.Length: > 0 } rule ? $"{CheckTitles.Of(rule.WithheldBy)} says it already" : "another check says it already",
            Withholding.Old => "it happened too long ago to be shown as new",
            Withholding.OverBeforeJudged => "it was over before it was judged",
            Withholding.BeforePolicy => "by the policy in force then it was no finding",
            _ when !content.Sent && live => "its rule is silent",
            _ => "",
        };
    }

    private static (Severity Severity, StandingRow Row)? RowOf(ILedger ledger, RuleSet rules, FindingRecord record)
    {
        var content = FindingContent.Read(record.Content.Span);
        return content switch
        {
            { Flag: { } flag } when flag.Status == FlagStatus.Active || content.Withheld == Withholding.Silent => (flag.Severity, Row(flag.Severity, flag.Text, new DateTimeOffset(record.First, TimeSpan.Zero))),
            { Issue: { } issue } when record.Parent == Guid.Empty => (issue.Severity, Row(issue.Severity, issue.Say, issue.EventAt) with { Stands = false }),
            _ => null,
        };

        StandingRow Row(Severity severity, string say, DateTimeOffset since) => new(
            ledger.NameOf(record.Patient), record.Check, CheckTitles.Of(record.Check), severity.ToString().ToLowerInvariant(), say, since,
            Capital(rules.Find(record.Check)?.ClearedBy ?? ""));
    }

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
