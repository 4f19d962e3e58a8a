using AirwayGuard.Core.Charting;
using AirwayGuard.Storage.Sql;
using AirwayGuard.TestKit.Ledger;
using Xunit;

namespace AirwayGuard.Storage.Tests;

public sealed class EntityStoreTests : IDisposable
{
    private readonly TestFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_known_name_is_looked_up_without_allocating()
    {
        await using var ledger = await Open();
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 120)], null, TestContext.Current.CancellationToken);
        var entities = ledger.Entities;
        var expected = entities.Intern(EntityKind.Patient, "Patient/1"u8);

        var before = GC.GetAllocatedBytesForCurrentThread();
        var found = default(Entity);
        for (var i = 0; i < 1000; i++)
        {
            found = entities.Intern(EntityKind.Patient, "Patient/1"u8);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(expected, found);
    }

    [Fact]
    public async Task A_name_that_nothing_kept_speaks_of_leaves_no_trace()
    {
        await using var ledger = await Open();
        ledger.Intern("Patient/asked-about");
        Assert.Equal("Patient/asked-about", ledger.IdentityOf(ledger.Intern("Patient/asked-about")));
        await ledger.KeepAsync([Charted.Vacuum(ledger, "1", "1", "Patient/1", 120)], null, TestContext.Current.CancellationToken);

        using var database = Database.OpenReader(Path.Combine(_folder.Path, "ledger.db"));
        using var names = database.Prepared("SELECT group_concat(name, ' ') FROM (SELECT name FROM entities ORDER BY name)");
        Assert.True(names.Step());
        Assert.Equal("Observation/1 Patient/1", names.Text(0));
    }

    [Fact]
    public async Task A_row_code_that_only_a_value_names_is_saved()
    {
        await using (var ledger = await Open())
        {
            var row = Charted.Vacuum(ledger, "1", "1", "Patient/1", 120);
            var code = ledger.Intern("urn:flow|17", EntityKind.RowCode);
            row.Reading.Facts[0] = row.Reading.Facts[0] with { Value = row.Reading.Facts[0].Value with { Symbol = code.Key } };
            await ledger.KeepAsync([row], null, TestContext.Current.CancellationToken);
        }

        await using var again = await Open();
        Assert.Equal("urn:flow|17", again.NameOf(new Entity(EntityKind.RowCode, 1)));
    }

    private ValueTask<SqliteLedger> Open() => SqliteLedger.OpenAsync(_folder.Path, new SqliteLedgerOptions(), new SetClock(Charted.Morning));
}
