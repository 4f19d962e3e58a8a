using System.Collections.Immutable;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Judging;

namespace AirwayGuard.Host.Service;

/// <summary>What one check could not tell for want of one thing, over all patients.</summary>
/// <param name="Title">The check, for a person.</param>
/// <param name="Missing">What was lacking, in words.</param>
/// <param name="Patients">Of whom, each once, in order.</param>
/// <param name="Times">How many passes, settings, sessions or orders were not judged by it.</param>
/// <param name="Latest">When the latest of them happened.</param>
internal sealed record NotToldRow(string Title, string Missing, ImmutableArray<string> Patients, int Times, DateTimeOffset Latest)
{
    /// <summary>Says its check only.</summary>
    public override string ToString() => $"NotToldRow({Title})";
}

/// <summary>Reads from the ledger what could not be told: charting that is missing is no pass, and the way to mend it is to chart it.</summary>
internal static class NotTold
{
    /// <returns>What was met within <see cref="StandingFindings.Lately"/> hours, most often met first; silent checks are left out.</returns>
    public static async Task<IReadOnlyList<NotToldRow>> ReadAsync(ILedger ledger, DateTimeOffset now, CancellationToken stop)
    {
        var found = new List<(string Check, string Missing, string Patient, int Times, DateTimeOffset Latest)>();
        await foreach (var history in ledger.HistoryAsync(new HistoryRange(new TimeRange(long.MaxValue, long.MaxValue), Core.Charting.Position.Never, 0, 1), stop))
        {
            using (history.Facts)
            {
                foreach (var record in await ledger.FindingsAsync(history.Patient, stop))
                {
                    var latest = new DateTimeOffset(record.Latest, TimeSpan.Zero);
                    if (record is { Kind: FindingKind.CannotTell, State: FindingState.Open } && now - latest <= TimeSpan.FromHours(StandingFindings.Lately)
                        && FindingContent.Read(record.Content.Span) is { Withheld: Withholding.None } content)
                    {
                        found.Add((record.Check, string.Join(", ", content.Missing.Select(MissingWords.Of)), ledger.NameOf(record.Patient), record.Count, latest));
                    }
                }
            }
        }

        return [.. found
            .GroupBy(one => (one.Check, one.Missing))
            .Select(same => new NotToldRow(
                CheckTitles.Of(same.Key.Check), same.Key.Missing, [.. same.Select(one => one.Patient).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                same.Sum(one => one.Times), same.Max(one => one.Latest)))
            .OrderByDescending(row => row.Times).ThenBy(row => row.Title, StringComparer.Ordinal).ThenBy(row => row.Missing, StringComparer.Ordinal)];
    }
}
