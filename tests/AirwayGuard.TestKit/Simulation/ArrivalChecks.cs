using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Sandbox;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Whether all that the server holds was kept and judged, each due time fell due once, and the audit trail is whole.</summary>
internal static class ArrivalChecks
{
    /// <param name="heads">Heads of the audit trail as somebody outside had anchored them.</param>
    public static async Task<IReadOnlyList<string>> FaultsAsync(ILedger ledger, ServerContents server, IReadOnlyList<string> patients, IReadOnlyList<AuditHead> heads)
    {
        var faults = new List<string>();
        var judged = await JudgedUpToAsync(ledger, patients);
        foreach (var type in SimulatedBasis.Queries.Select(query => query.Type).Distinct(StringComparer.Ordinal))
        {
            foreach (var version in server.All(type))
            {
                var position = await PositionOfAsync(ledger, $"{type}/{version.Id}", version.VersionId.ToString(CultureInfo.InvariantCulture));
                if (position is not { } kept)
                {
                    faults.Add($"A resource of type {type} on the server was never kept.");
                }
                else if (type is not ("DetectedIssue" or "Flag") && judged.GetValueOrDefault(PatientOf(version)) < kept
                    && !await NeverSaidAnythingAsync(ledger, $"{type}/{version.Id}", kept))
                {
                    faults.Add($"{type}/{version.Id} was never judged.");
                }
            }
        }

        faults.AddRange(await DeletionFaultsAsync(ledger, server));
        faults.AddRange(await DueFaultsAsync(ledger));
        var verdict = await AuditChain.Verify(ledger.AuditTrailAsync(CancellationToken.None), heads, CancellationToken.None);
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

    // Of a patient's own file and of what is charted of one.
    private static string PatientOf(StoredVersion version) =>
        version.Type == "Patient" ? "Patient/" + version.Id : JsonNode.Parse(version.Body.Span)!["subject"]?["reference"]?.GetValue<string>() ?? "";

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
    private static async Task<IReadOnlyList<string>> DeletionFaultsAsync(ILedger ledger, ServerContents server)
    {
        var faults = new List<string>();
        foreach (var id in server.DeletedRows)
        {
            var row = ledger.Entities.Intern(EntityKind.Row, Encoding.UTF8.GetBytes("Observation/" + id));
            var kept = new List<Arrival?>();
            foreach (var position in await ledger.VersionsAsync(row, CancellationToken.None))
            {
                kept.Add(await ledger.ArrivalAsync(position, CancellationToken.None));
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
