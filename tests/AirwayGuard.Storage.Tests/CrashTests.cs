using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class CrashTests : IDisposable
{
    private const int RowsPerCommit = 3;
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    /// <summary>A process that dies leaves the file and whatever part of the write-ahead log was on disk by then.</summary>
    [Fact]
    public async Task A_log_cut_off_anywhere_reopens_with_whole_commits_only()
    {
        var stop = TestContext.Current.CancellationToken;
        var (database, log) = await Written(commits: 12, stop);
        var random = new Random(20260302);
        var found = new HashSet<long>();
        for (var i = 0; i < 25; i++)
        {
            using var copy = new TestFolder();
            await File.WriteAllBytesAsync(Path.Combine(copy.Path, "ledger.db"), database, stop);
            await File.WriteAllBytesAsync(Path.Combine(copy.Path, "ledger.db-wal"), log[..(i == 0 ? log.Length : random.Next(log.Length))], stop);
            found.Add(await CheckWhole(copy.Path, stop));
        }

        Assert.Contains(12L * RowsPerCommit, found);
        Assert.True(found.Count > 5, "The cuts fell into too few places to tell anything.");
    }

    private async Task<(byte[] Database, byte[] Log)> Written(int commits, CancellationToken stop)
    {
        await using var ledger = await SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
        for (var i = 0; i < commits; i++)
        {
            var rows = Enumerable.Range(0, RowsPerCommit).Select(j => Charted.Vacuum(ledger, $"{i}-{j}", "1", $"Patient/{j}", i)).ToArray();
            await ledger.KeepAsync(rows, new SweepCursor("quick", Charted.Morning.AddMinutes(i), $"{i}"), stop);
        }

        return (await ReadOpen("ledger.db"), await ReadOpen("ledger.db-wal"));

        async Task<byte[]> ReadOpen(string name)
        {
            await using var file = new FileStream(Path.Combine(_folder.Path, name), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var bytes = new byte[file.Length];
            await file.ReadExactlyAsync(bytes, stop);
            return bytes;
        }
    }

    private static async Task<long> CheckWhole(string folder, CancellationToken stop)
    {
        await using var ledger = await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
        var newest = (await ledger.StateAsync(stop)).Newest;
        Assert.Equal(0, newest.Value % RowsPerCommit);
        var commits = newest.Value / RowsPerCommit;
        Assert.Equal(commits == 0 ? null : $"{commits - 1}", (await ledger.CursorAsync("quick", stop))?.LastId);
        var trail = await ledger.AuditTrailAsync(stop).ToListAsync(stop);
        Assert.Equal(commits, trail.Count);
        Assert.True((await AuditChain.Verify(trail.ToAsyncEnumerable(), [], stop)).IsSound);
        for (var j = 0; j < RowsPerCommit; j++)
        {
            using var lease = await ledger.LoadAsync(ledger.Intern($"Patient/{j}"), TimeRange.All, newest, stop);
            Assert.Equal(commits, lease.FactCount);
        }

        var next = await ledger.KeepAsync([Charted.Vacuum(ledger, "next", "1", "Patient/1", 1)], null, stop);
        Assert.Equal(new Position(newest.Value + 1), next[0].Position);
        return newest.Value;
    }
}
