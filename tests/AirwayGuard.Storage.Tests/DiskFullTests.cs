using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Schema;
using AirwayGuard.TestKit.Ledger;
using Microsoft.Data.Sqlite;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>A real SQLITE_FULL: the connection that first opens the ledger may not let it grow beyond some pages.</summary>
public sealed class DiskFullTests : IDisposable
{
    private const int Full = 13;
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_commit_that_finds_the_disk_full_fails_whole_and_the_ledger_goes_on_once_there_is_room()
    {
        var stop = TestContext.Current.CancellationToken;
        var kept = 0;
        await using (var ledger = await OpenAsync())
        {
            var trouble = await Assert.ThrowsAsync<SqliteException>(async () =>
            {
                for (; kept < 10_000; kept++)
                {
                    await ledger.KeepAsync([Charted.Vacuum(ledger, $"{kept}", "1", "Patient/1", 120)], new SweepCursor("rows", Charted.Morning.AddSeconds(kept), null), stop);
                }
            });
            var claim = await Record.ExceptionAsync(async () => await ledger.AuditAsync([.. Enumerable.Range(0, 500).Select(i => new AuditNote("x", $"{i}", "{}", default))], Charted.Morning, stop));

            Assert.Equal(Full, trouble.SqliteErrorCode);
            Assert.Equal(Full, Assert.IsType<SqliteException>(claim).SqliteErrorCode);
            Assert.Equal(kept, (await ledger.StateAsync(stop)).Arrivals);
        }

        await using var roomy = await OpenAsync();
        var cursor = await roomy.CursorAsync("rows", stop);
        var again = await roomy.KeepAsync([Charted.Vacuum(roomy, $"{kept}", "1", "Patient/1", 120)], null, stop);

        Assert.InRange(kept, 1, 9_999);
        Assert.Equal(Charted.Morning.AddSeconds(kept - 1), cursor!.ServerTime);
        Assert.True(again[0].IsNew);
        Assert.Equal(kept + 1, (await roomy.StateAsync(stop)).Arrivals);
    }

    // Recorded as done, it binds the first connection only.
    private ValueTask<SqliteLedger> OpenAsync() => SqliteLedger.OpenAsync(
        _folder.Path, new SqliteLedgerOptions { Migrations = [.. Migration.Embedded, new Migration(99, "0099-small", "PRAGMA max_page_count = 120")] }, new SetClock(Charted.Morning));
}
