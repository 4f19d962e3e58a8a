using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service;

/// <summary>One finding that stands, in words.</summary>
internal sealed record StandingRow(string Patient, string Check, string Severity, string Say, string Do, DateTimeOffset Since, Guid Key)
{
    public string Clears(RuleSet rules) => rules.Find(Check)?.ClearedBy ?? "";

    /// <summary>Says its check only.</summary>
    public override string ToString() => $"StandingRow({Check})";
}

/// <summary>Reads what stands from the ledger: open spells, and the day's occurrences of checks that do not stand.</summary>
internal static class StandingFindings
{
    public static async Task<IReadOnlyList<StandingRow>> ReadAsync(ILedger ledger, CancellationToken stop)
    {
        var rows = new List<StandingRow>();
        await foreach (var history in ledger.HistoryAsync(new HistoryRange(new TimeRange(long.MaxValue, long.MaxValue), Position.Never, 0, 1), stop))
        {
            using (history.Facts)
            {
                var records = await ledger.FindingsAsync(history.Patient, stop);
                rows.AddRange(records.Where(record => record.State == FindingState.Open).Select(record => RowOf(ledger, record)).OfType<StandingRow>());
            }
        }

        return [.. rows.OrderBy(row => row.Patient, StringComparer.Ordinal).ThenBy(row => row.Check, StringComparer.Ordinal).ThenBy(row => row.Since)];
    }

    private static StandingRow? RowOf(ILedger ledger, FindingRecord record)
    {
        var content = FindingContent.Read(record.Content.Span);
        return content switch
        {
            { Flag: { } flag } when flag.Status == FlagStatus.Active => new StandingRow(
                ledger.NameOf(record.Patient), record.Check, flag.Severity.ToString().ToLowerInvariant(), flag.Text, "", flag.PeriodStart, record.Key),
            { Issue: { } issue } when record.Parent == Guid.Empty => new StandingRow(
                ledger.NameOf(record.Patient), record.Check, issue.Severity.ToString().ToLowerInvariant(), issue.Say, issue.Do, issue.EventAt, record.Key),
            _ => null,
        };
    }
}
