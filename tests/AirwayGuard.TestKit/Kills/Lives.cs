using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.TestKit.Kills;

/// <summary>The lives of the service, each ended at a moment of its own.</summary>
internal sealed class Lives(ServedSandbox server, ServicePlace place, TimeProvider clock, Random random)
{
    private const int BeforeFirstSweep = 3;
    private static readonly TimeSpan LongestLife = TimeSpan.FromSeconds(6);

    public int Count => Schedule.Count;

    public List<string> Schedule { get; } = [];

    public List<string> Troubles { get; } = [];

    /// <summary>Heads of the audit trail after each end.</summary>
    public List<AuditHead> Heads { get; } = [];

    public Dictionary<string, int> LastDone { get; } = new(StringComparer.Ordinal);

    public async Task LiveAndDieAsync()
    {
        var moment = Count == BeforeFirstSweep ? Moment.FirstSweep : Moment.Draw(random);
        var comes = moment.Kind is MomentKind.Asking or MomentKind.Writing ? server.Traffic.ComesAsync(moment.Requests, moment.Counts) : Task.FromResult("");
        using var service = ServiceProcess.Start(place, clock);
        var last = moment.Kind == MomentKind.Ready ? await service.IsReadyAsync() ? "ready" : "never ready"
            : await Task.WhenAny(comes, Task.Delay(LongestLife, clock), service.EndedAsync()) == comes ? await comes : "fewer came";
        await Task.Delay(moment.Then, clock);
        if (service.HasEnded)
        {
            Troubles.Add($"Life {Count + 1}: the service ended by itself. {string.Join(' ', service.Faults)}");
        }

        var age = service.Age;
        await service.KillAsync();
        Troubles.AddRange(service.Faults.Select(fault => $"Life {Count + 1}: {fault}"));
        var entry = await LastEntryAsync();
        Schedule.Add(string.Create(CultureInfo.InvariantCulture, $"{Count + 1,4} {moment} ({last}): {age.TotalSeconds:F2} s, last in the audit trail {entry?.What} {entry?.Number}"));
    }

    private async Task<AuditEntry?> LastEntryAsync()
    {
        AuditEntry? last = null;
        if (File.Exists(Path.Combine(place.LedgerFolder, "ledger.db")))
        {
            using var trail = AuditTrailFile.Open(place.LedgerFolder);
            await foreach (var entry in trail.ReadAsync(CancellationToken.None))
            {
                last = entry;
            }
        }

        if (last is not null)
        {
            Heads.Add(new AuditHead(last.Chain, last.Number, last.Hash));
            LastDone[last.What] = LastDone.GetValueOrDefault(last.What) + 1;
        }

        return last;
    }
}
