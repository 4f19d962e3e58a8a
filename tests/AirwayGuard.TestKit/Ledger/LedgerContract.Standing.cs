using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task The_version_that_stands_is_told_with_when_it_became_known_and_since_when_its_resource_is()
    {
        var kept = Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, knownAfter: 1);
        Assert.Null(await Ledger.StandingVersionAsync(kept.Reading.Self, Stop));
        var first = await KeepOne(kept);
        var second = await KeepOne(Charted.Vacuum(Ledger, "1", "2", "Patient/1", 130, knownAfter: 5));
        await Keep(Charted.Vacuum(Ledger, "1", "1.5", "Patient/1", 125, knownAfter: 3));

        Assert.Equal(new StandingVersion(second, "2", Charted.Morning.AddMinutes(5), IsDeletion: false, first), await Ledger.StandingVersionAsync(kept.Reading.Self, Stop));
        Assert.Null(await Ledger.StandingVersionAsync(Ledger.Intern("Observation/2"), Stop));
        Assert.Null(await Ledger.StandingVersionAsync(default, Stop));
    }

    [Fact]
    public async Task A_deletion_stands_and_so_does_a_version_without_an_id()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", null, "Patient/1", 120));
        var row = Ledger.Intern("Observation/1");
        Assert.Equal(new StandingVersion(first, null, Charted.Morning, IsDeletion: false, first), await Ledger.StandingVersionAsync(row, Stop));

        var deleted = await KeepOne(Charted.Deletion(Ledger, "1", "2", knownAfter: 9));

        Assert.Equal(new StandingVersion(deleted, "2", Charted.Morning.AddMinutes(9), IsDeletion: true, first), await Ledger.StandingVersionAsync(row, Stop));
    }

    [Fact]
    public async Task A_name_is_found_where_it_has_a_number_and_asking_gives_none()
    {
        Assert.False(Ledger.TryFind(EntityKind.Patient, "Patient/1"u8, out var none));
        Assert.True(none.IsNone);
        Assert.False(Ledger.TryFind(EntityKind.Patient, "Patient/2"u8, out _));
        var given = Ledger.Intern("Patient/2");
        Assert.Equal(1, given.Key);
        Assert.True(Ledger.TryFind(EntityKind.Patient, "Patient/2"u8, out var unsaved));
        Assert.Equal(given, unsaved);

        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/2", 120));

        Assert.True(Ledger.TryFind(EntityKind.Patient, "Patient/2"u8, out var known));
        Assert.Equal(given, known);
        Assert.False(Ledger.TryFind(EntityKind.Place, "Patient/2"u8, out _));
        await ReopenAsync();
        Assert.True(Ledger.TryFind(EntityKind.Patient, "Patient/2"u8, out known));
        Assert.Equal(given, known);
        Assert.False(Ledger.TryFind(EntityKind.Patient, "Patient/1"u8, out _));
    }
}
