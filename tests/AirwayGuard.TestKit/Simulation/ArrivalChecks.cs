using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Whether all that the server holds was kept and judged, each due time fell due once, and the audit trail is whole.</summary>
internal static class ArrivalChecks
{
    public static async Task<IReadOnlyList<string>> FaultsAsync(SimulatedRun run)
    {
        var (faults, ledger) = (new List<string>(), run.Ledger);
        var judged = await JudgedUpToAsync(ledger, run.Plan.Patients);
        foreach (var type in SimulatedBasis.Queries.Select(query => query.Type).Distinct(StringComparer.Ordinal))
        {
            foreach (var version in run.Server.All(type))
            {
                var position = await PositionOfAsync(ledger, $"{type}/{version.Id}", version.VersionId.ToString(CultureInfo.InvariantCulture));
                if (position is not { } kept)
                {
                    faults.Add($"A resource of type {type} on the server was never kept.");
                }
                else if (type is not ("DetectedIssue" or "Flag") && judged.Values.All(upTo => upTo < kept)
                    && !await NeverSaidAnythingAsync(ledger, $"{type}/{version.Id}", kept))
                {
                    faults.Add($"{type}/{version.Id} was never judged.");
                }
            }
        }

        faults.AddRange(await DeletionFaultsAsync(run));
        faults.AddRange(await DueFaultsAsync(ledger));
        var verdict = await AuditChain.Verify(ledger.AuditTrailAsync(CancellationToken.None), run.Heads, CancellationToken.None);
        if (!verdict.IsSound)
        {
            faults.Add($"The audit trail is {verdict.Fault} at entry {verdict.FirstBad}.");
        }

        faults.AddRange((await ledger.ParkedAsync(CancellationToken.None)).Select(item => $"Parked with {item.Code}."));
        return faults;
    }

    private static async Task<IReadOnlyDictionary<string, Position>> JudgedUpToAsync(ILedger ledger, IReadOnlyList<string> patients)
    {
        var judged = new Dictionary<string, Position>(StringComparer.Ordinal);
        var state = await ledger.StateAsync(CancellationToken.None);
        await foreach (var history in ledger.HistoryAsync(new HistoryRange(TimeRange.All, state.Newest, 0, 1), CancellationToken.None))
        {
            if (!history.JudgedAt.IsEmpty)
            {
                judged[ledger.NameOf(history.Patient)] = history.JudgedAt.Max(point => point.UpTo);
            }
        }

        return judged.Where(one => patients.Contains(one.Key["Patient/".Length..], StringComparer.Ordinal)).ToDictionary(StringComparer.Ordinal);
    }

    private static async Task<Position?> PositionOfAsync(ILedger ledger, string name, string version)
    {
        var kind = References.KindOf(name.AsSpan(0, name.IndexOf('/', StringComparison.Ordinal)));
        foreach (var position in await ledger.VersionsAsync(ledger.Entities.Intern(kind, Encoding.UTF8.GetBytes(name)), CancellationToken.None))
        {
            if ((await ledger.ArrivalAsync(position, CancellationToken.None))?.Version == version)
            {
                return position;
            }
        }

        return null;
    }

    // Entered in error before it was ever read: it was never charted, and concerns nobody.
    private static async Task<bool> NeverSaidAnythingAsync(ILedger ledger, string name, Position kept)
    {
        var kind = References.KindOf(name.AsSpan(0, name.IndexOf('/', StringComparison.Ordinal)));
        var versions = await ledger.VersionsAsync(ledger.Entities.Intern(kind, Encoding.UTF8.GetBytes(name)), CancellationToken.None);
        return versions.Count == 1 && (await ledger.ArrivalAsync(kept, CancellationToken.None))!.Body.Span.IndexOf("\"entered-in-error\""u8) >= 0;
    }

    // What was never seen before it was deleted was never charted.
    private static async Task<IReadOnlyList<string>> DeletionFaultsAsync(SimulatedRun run)
    {
        var faults = new List<string>();
        foreach (var id in run.Server.DeletedRows)
        {
            var row = run.Ledger.Entities.Intern(EntityKind.Row, Encoding.UTF8.GetBytes("Observation/" + id));
            var kept = new List<Arrival?>();
            foreach (var position in await run.Ledger.VersionsAsync(row, CancellationToken.None))
            {
                kept.Add(await run.Ledger.ArrivalAsync(position, CancellationToken.None));
            }

            if (kept.Count > 0 && kept.All(arrival => arrival?.Kind != ArrivalKind.Deletion))
            {
                faults.Add($"The deletion of Observation/{id} was never kept.");
            }
        }

        return faults;
    }

    private static async Task<IReadOnlyList<string>> DueFaultsAsync(ILedger ledger)
    {
        var state = await ledger.StateAsync(CancellationToken.None);
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var at = 1L; at <= state.Newest.Value; at++)
        {
            if (await ledger.ArrivalAsync(new Position(at), CancellationToken.None) is { Kind: ArrivalKind.DueTime } due)
            {
                var body = Encoding.UTF8.GetString(due.Body.Span);
                seen[body] = seen.GetValueOrDefault(body) + 1;
            }
        }

        return [.. seen.Where(one => one.Value > 1).Select(one => $"A time fell due {one.Value} times.")];
    }
}
