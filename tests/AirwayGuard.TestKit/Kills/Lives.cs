using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Storage.Auditing;

namespace AirwayGuard.TestKit.Kills;

/// <summary>The lives of the service, each ended at a moment of its own.</summary>
internal sealed class Lives(ServedSandbox server, ServicePlace place, TimeProvider clock, Random random)
{
    private const int BeforeFirstSweep = 1;
    private static readonly TimeSpan LongestLife = TimeSpan.FromSeconds(12);

    public int Count => Schedule.Count;

    public List<string> Schedule { get; } = [];

    public List<string> Troubles { get; } = [];

    /// <summary>Heads of the audit trail after each end.</summary>
    public List<AuditHead> Heads { get; } = [];

    public Dictionary<string, int> LastDone { get; } = new(StringComparer.Ordinal);

    public async Task LiveAndDieAsync()
    {
        var moment = Count == BeforeFirstSweep ? Moment.FirstSweep : Moment.Draw(random);
        var comes = new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously);
        server.Traffic.Await(moment.Requests, moment.Counts, last => comes.TrySetResult(last));
        using var service = ServiceProcess.Start(place, clock);
        var last = moment.Kind switch
        {
            MomentKind.InStart => "",
            MomentKind.Ready => await service.IsReadyAsync(LongestLife) ? "ready" : "not yet ready",
            _ => await Task.WhenAny(comes.Task, Task.Delay(LongestLife, clock), service.EndedAsync()) == comes.Task ? await comes.Task : "fewer came",
        };
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
