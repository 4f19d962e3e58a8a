using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private const string Failing = "AG4999";

    [Fact]
    public async Task A_judgement_that_failed_is_claimed_again_at_its_time_with_its_tries_counted_and_others_go_on()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120), Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120));
        var work = (await Claim())!;

        Assert.Equal(Committed.Yes, await Fail(work, Now.AddMinutes(1)));

        Assert.Equal((1, Ledger.Intern("Patient/2")), (work.Attempts, (await Claim())!.Patient));
        Assert.Null(await Claim(Now.AddMinutes(1).AddTicks(-1)));
        var again = (await Claim(Now.AddMinutes(1)))!;
        Assert.Equal((work.Patient, 2, work.Affected), (again.Patient, again.Attempts, again.Affected));
        Assert.Equal((Committed.StaleFence, 0L), (await Fail(work, null), (await Ledger.StateAsync(Stop)).Parked));
    }

    [Fact]
    public async Task A_judgement_parked_is_claimed_no_more_and_says_whose_it_is_and_when_it_was_first_tried()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await Fail((await Claim())!, Now.AddMinutes(3));
        await Fail((await Claim(Now.AddMinutes(3)))!, null, Now.AddMinutes(4));
        await ReopenAsync();

        Assert.Null(await Claim(Now.AddDays(1)));
        var entry = Assert.Single(await Ledger.ParkedEntriesAsync(Stop));
        Assert.Equal((Failing, "Patient/1", Ledger.Intern("Patient/1")), (entry.Item.Code, entry.Item.Where, entry.Item.Patient));
        Assert.Equal((Now, Now.AddMinutes(4)), (entry.First, entry.Item.At));
        var state = await Ledger.StateAsync(Stop);
        Assert.Equal((0, 1), (state.PatientsWaiting, state.Parked));
        Assert.Equal(("parked", "Patient/1"), await LastEntryAsync());
    }

    [Fact]
    public async Task What_is_charted_next_of_a_parked_patient_is_tried_once_and_stays_one_item()
    {
        await ParkJudgingAsync();
        var number = Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number;
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 130, at: 9));

        var more = (await Claim())!;
        await Fail(more, null, Now.AddHours(1));

        Assert.Equal(2, more.Attempts);
        Assert.Null(await Claim(Now.AddDays(1)));
        var entry = Assert.Single(await Ledger.ParkedEntriesAsync(Stop));
        Assert.Equal((number, Now, Now.AddHours(1)), (entry.Number, entry.First, entry.Item.At));
    }

    [Fact]
    public async Task A_judgement_that_succeeds_takes_its_patient_off_what_is_parked_and_begins_to_count_anew()
    {
        await ParkJudgingAsync();
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 130, at: 9));

        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide((await Claim())!), Stop));

        Assert.Empty(await Ledger.ParkedEntriesAsync(Stop));
        await Keep(Charted.Vacuum(Ledger, "3", "1", "Patient/1", 130, at: 10));
        Assert.Equal(1, (await Claim())!.Attempts);
    }

    [Fact]
    public async Task A_parked_judgement_put_back_is_claimed_with_its_tries_counted_anew()
    {
        await ParkJudgingAsync();

        Assert.True(await Ledger.RetryParkedAsync(Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number, null, Stop));

        Assert.Equal(("parked-retried", "Patient/1"), await LastEntryAsync());
        var again = (await Claim())!;
        Assert.Equal((Ledger.Intern("Patient/1"), 1, TimeRange.All), (again.Patient, again.Attempts, again.Affected));
        Assert.Empty(await Ledger.ParkedEntriesAsync(Stop));
    }

    [Fact]
    public async Task A_parked_judgement_dropped_waits_for_the_next_charting_and_then_has_all_its_tries()
    {
        await ParkJudgingAsync();

        Assert.True(await Ledger.DropParkedAsync(Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number, "known", Stop));

        Assert.Null(await Claim(Now.AddDays(1)));
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 130, at: 9));
        Assert.Equal(1, (await Claim())!.Attempts);
    }

    [Fact]
    public async Task A_claim_to_judge_given_back_is_no_try_and_is_free_at_once()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await Fail((await Claim())!, Now);
        var work = (await Claim())!;

        Assert.Equal(Committed.Yes, await Ledger.ReleaseAsync(work, Stop));

        var again = (await Claim())!;
        Assert.Equal((work.Patient, 2, work.Affected), (again.Patient, again.Attempts, again.Affected));
        Assert.Equal(Committed.StaleFence, await Ledger.ReleaseAsync(work, Stop));
        await Ledger.DecideAsync(Decide(again), Stop);
        Assert.Equal(Committed.Already, await Ledger.ReleaseAsync(again, Stop));
    }

    private async ValueTask ParkJudgingAsync()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await Fail((await Claim())!, Now);
        await Fail((await Claim())!, null);
    }

    private ValueTask<Committed> Fail(Work work, DateTimeOffset? notBefore, DateTimeOffset? at = null) =>
        Ledger.FailAsync(new FailedJudgement(work.Patient, work.Fence, Failing, at ?? Now, notBefore), Stop);
}
