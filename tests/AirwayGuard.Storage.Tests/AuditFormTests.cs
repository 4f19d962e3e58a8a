using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.Storage.Sql;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

/// <summary>Verifies a trail by docs/audit.md alone: nothing here calls the chain's own code.</summary>
public sealed class AuditFormTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_verifier_written_from_the_page_agrees_with_every_entry()
    {
        var trail = await Trail();
        var previous = new string('0', 64);
        foreach (var (entry, index) in trail.Select((entry, index) => (entry, index)))
        {
            string[] members = ["airwayguard-audit-1", $"{entry.Chain}", $"{index + 1}", $"{entry.At.UtcTicks}", entry.What, entry.Subject, entry.Detail, entry.BodyDigest, previous];
            var form = string.Concat(members.Select(member => $"{Encoding.UTF8.GetByteCount(member)}:{member},"));
            previous = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(form)));
            Assert.Equal(previous, entry.Hash);
        }
    }

    [Fact]
    public async Task The_example_of_the_page_holds()
    {
        var entry = new AuditEntry(1, 1, new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), "promoted", "vacuum-above-ceiling", "{\"by\":\"A. Example\"}", "", new string('0', 64), "");

        Assert.Equal("639080352000000000", $"{entry.At.UtcTicks}");
        Assert.Contains(AuditChain.HashOf(entry), await Page(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bodies_and_salts_can_be_purged_and_the_chain_still_verifies()
    {
        var trail = await Trail();
        using var database = Database.OpenWriter(Path.Combine(_folder.Path, "ledger.db"), waitsForDisk: true);
        using (var salt = database.Prepared("SELECT salt FROM audit_salts WHERE number = 2"))
        {
            Assert.True(salt.Step());
            Assert.Equal(Convert.ToHexStringLower(HMACSHA256.HashData(salt.Blob(0), "shown"u8)), trail[1].BodyDigest);
        }

        database.Execute("DELETE FROM audit_salts; DELETE FROM bodies;");

        var stop = TestContext.Current.CancellationToken;
        await using var ledger = await Open();
        Assert.True((await AuditChain.Verify(ledger.AuditTrailAsync(stop), [new AuditHead(1, trail.Count, trail[^1].Hash)], stop)).IsSound);
        Assert.Null(await ledger.ArrivalAsync(new Core.Charting.Position(1), stop));
    }

    [Theory]
    [InlineData("UPDATE audit SET subject = 'x' WHERE number = 1")]
    [InlineData("DELETE FROM audit WHERE number = 3")]
    public async Task The_file_itself_refuses_to_edit_the_trail(string sql)
    {
        await Trail();
        using var database = Database.OpenWriter(Path.Combine(_folder.Path, "ledger.db"), waitsForDisk: true);

        Assert.Contains("append-only", Assert.ThrowsAny<Exception>(() => database.Execute(sql)).Message, StringComparison.Ordinal);
    }

    private ValueTask<SqliteLedger> Open() => SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));

    private async Task<List<AuditEntry>> Trail()
    {
        var stop = TestContext.Current.CancellationToken;
        await using var ledger = await Open();
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 120)], null, stop);
        await ledger.AuditAsync([new AuditNote("shown", "Patient/ü 🩺", "{\"a\":\"1:2,\"}", "shown"u8.ToArray()), new AuditNote("empty", "", "", default)], Charted.Morning.ToOffset(TimeSpan.FromHours(9)), stop);
        return await ledger.AuditTrailAsync(stop).ToListAsync(stop);
    }

    private static async Task<string> Page()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "AirwayGuard.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The tests do not run inside the repository.");
        }

        return await File.ReadAllTextAsync(Path.Combine(folder, "docs", "audit.md"), TestContext.Current.CancellationToken);
    }
}
