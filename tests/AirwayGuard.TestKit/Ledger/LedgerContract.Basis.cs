using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task The_first_basis_and_the_same_again_change_nothing()
    {
        await JudgeOneAsync();
        var state = await Ledger.StateAsync(Stop);

        Assert.Equal(new BasisSince(default, Now), await Ledger.AdoptBasisAsync("basis-1", null, Now, Stop));
        await ReopenAsync();
        Assert.Equal(new BasisSince(default, Now), await Ledger.AdoptBasisAsync("basis-1", null, Now.AddHours(1), Stop));

        Assert.Equal(state, await Ledger.StateAsync(Stop));
        Assert.Null(await Claim());
    }

    [Fact]
    public async Task Another_basis_is_an_arrival_and_marks_whom_it_concerns_once()
    {
        await JudgeOneAsync();
        await Ledger.AdoptBasisAsync("basis-1", null, Now, Stop);

        var since = await Ledger.AdoptBasisAsync("basis-2", null, Now.AddMinutes(1), Stop);
        await ReopenAsync();
        Assert.Equal(since, await Ledger.AdoptBasisAsync("basis-2", null, Now.AddMinutes(2), Stop));

        var newest = (await Ledger.StateAsync(Stop)).Newest;
        Assert.Equal(new BasisSince(newest, Now.AddMinutes(1)), since);
        var arrival = (await Ledger.ArrivalAsync(newest, Stop))!;
        Assert.Equal((ArrivalKind.NewBasis, Now.AddMinutes(1)), (arrival.Kind, arrival.KnownAt));
        Assert.Contains("basis-2", System.Text.Encoding.UTF8.GetString(arrival.Body.Span), StringComparison.Ordinal);
        Assert.Equal(("basis", "basis-2"), await LastEntryAsync());
        var work = (await Claim())!;
        Assert.Equal((Ledger.Intern("Patient/1"), newest, TimeRange.All), (work.Patient, work.UpTo, work.Affected));
        await Ledger.DecideAsync(Decide(work), Stop);
        Assert.Null(await Claim());
    }

    [Fact]
    public async Task The_basis_a_patient_was_judged_by_last_is_told()
    {
        Assert.Null(await Ledger.LastJudgedAsync(Ledger.Intern("Patient/1"), Stop));
        await JudgeOneAsync();
        Assert.Equal("basis-1", (await Ledger.LastJudgedAsync(Ledger.Intern("Patient/1"), Stop))!.Value.BasisSha256);
        await Ledger.AdoptBasisAsync("basis-2", null, Now, Stop);

        await Ledger.DecideAsync(Decide((await Claim())!) with { BasisSha256 = "basis-2" }, Stop);
        await ReopenAsync();

        Assert.Equal("basis-2", (await Ledger.LastJudgedAsync(Ledger.Intern("Patient/1"), Stop))!.Value.BasisSha256);
    }

    [Fact]
    public async Task A_basis_that_comes_back_is_a_change_too()
    {
        await JudgeOneAsync();
        await Ledger.AdoptBasisAsync("basis-1", null, Now, Stop);
        var second = await Ledger.AdoptBasisAsync("basis-2", null, Now, Stop);

        var back = await Ledger.AdoptBasisAsync("basis-1", null, Now.AddMinutes(5), Stop);

        Assert.True(back.Position > second.Position);
        Assert.Equal(back, await Ledger.AdoptBasisAsync("basis-1", null, Now.AddMinutes(6), Stop));
    }

    [Fact]
    public async Task A_ledger_judged_by_another_basis_than_the_first_put_in_force_is_judged_again()
    {
        await JudgeOneAsync();

        Assert.True((await Ledger.AdoptBasisAsync("basis-2", null, Now, Stop)).Position.Value > 0);

        Assert.Equal(Ledger.Intern("Patient/1"), (await Claim())!.Patient);
    }

    [Fact]
    public async Task Another_basis_leaves_stays_that_are_over_as_they_were_judged()
    {
        await Keep(
            Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120), Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120), Charted.Vacuum(Ledger, "3", "1", "Patient/3", 120),
            Stay("Encounter/1", "Patient/1", Now.AddHours(-1)), Stay("Encounter/2", "Patient/2", Now.AddHours(1)), Stay("Encounter/3", "Patient/3", null));
        await SettleAll();
        await Ledger.AdoptBasisAsync("basis-1", null, Now, Stop);

        await Ledger.AdoptBasisAsync("basis-2", null, Now, Stop);

        Entity?[] marked = [(await Claim())?.Patient, (await Claim())?.Patient, (await Claim())?.Patient];
        Assert.Equal([Ledger.Intern("Patient/2"), Ledger.Intern("Patient/3"), null], marked);
    }

    private ReadArrival Stay(string name, string patient, DateTimeOffset? end)
    {
        var arrival = Charted.Linking(Ledger, name, "1", 0, (LinkKind.EncounterOf, name, patient));
        arrival.Reading.Links[0] = arrival.Reading.Links[0] with { ToTime = end?.UtcTicks ?? long.MaxValue };
        return arrival;
    }

    private async ValueTask JudgeOneAsync()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await SettleAll();
    }
}
