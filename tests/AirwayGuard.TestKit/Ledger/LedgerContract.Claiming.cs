using System.Collections.Concurrent;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task The_state_tells_the_oldest_change_that_waits_to_be_judged_also_while_it_is_claimed()
    {
        Assert.Null((await Ledger.StateAsync(Stop)).OldestWaiting);
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120));
        var work = (await Claim())!;

        Assert.Equal(new Position(1), (await Ledger.StateAsync(Stop)).OldestWaiting);
        await Ledger.DecideAsync(Decide(work), Stop);
        Assert.Equal(new Position(2), (await Ledger.StateAsync(Stop)).OldestWaiting);
    }

    [Fact]
    public async Task The_oldest_untried_change_leaves_out_who_waits_for_another_try()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120));
        var work = (await Claim())!;
        Assert.Equal(new Position(1), (await Ledger.StateAsync(Stop)).OldestUntried);

        await Ledger.FailAsync(new FailedJudgement(work.Patient, work.Fence, "AG4999", Now, Now.AddMinutes(1)), Stop);

        var state = await Ledger.StateAsync(Stop);
        Assert.Equal((new Position(1), new Position(2)), (state.OldestWaiting, state.OldestUntried));
    }

    [Fact]
    public async Task A_change_marks_its_patient_with_the_times_it_bears_on()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 10), Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120, at: 40));

        var work = (await Claim())!;

        Assert.Equal(WorkKind.Judge, work.Kind);
        Assert.Equal(Ledger.Intern("Patient/1"), work.Patient);
        Assert.Equal(new TimeRange(Charted.Minutes(10), Charted.Minutes(40)), work.Affected);
        Assert.Equal(2, work.UpTo.Value);
        Assert.Null(await Claim());
        Assert.Equal(1, (await Ledger.StateAsync(Stop)).PatientsWaiting);
    }

    [Fact]
    public async Task A_correction_that_moves_a_row_marks_both_patients_and_both_times()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 10));
        await SettleAll();
        await Keep(Charted.Vacuum(Ledger, "1", "2", "Patient/2", 120, knownAfter: 1, at: 50));

        var work = new[] { (await Claim())!, (await Claim())! }.OrderBy(w => w.Patient).ToArray();

        Assert.Equal([Ledger.Intern("Patient/1"), Ledger.Intern("Patient/2")], work.Select(w => w.Patient));
        Assert.Equal([Charted.Minutes(10), Charted.Minutes(50)], work.Select(w => w.Affected.From));
    }

    [Fact]
    public async Task A_fact_about_a_place_marks_every_patient_linked_to_it()
    {
        await Keep(
            Charted.Linking(Ledger, "Encounter/1", "1", 0, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/bed")),
            Charted.Linking(Ledger, "Encounter/2", "1", 0, (LinkKind.EncounterOf, "Encounter/2", "Patient/2"), (LinkKind.TakesPlaceAt, "Encounter/2", "Location/bed")),
            Charted.Linking(Ledger, "Device/reg", "1", 0, (LinkKind.StandsAt, "Device/reg", "Location/bed")));
        await SettleAll();
        var at = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Device/reg", 190));

        Assert.Equal([Ledger.Intern("Patient/1"), Ledger.Intern("Patient/2")], new[] { (await Claim())!.Patient, (await Claim())!.Patient }.Order());
        Assert.Equal([190], await Vacuums("Patient/1", at));
        Assert.Equal([190], await Vacuums("Patient/2", at));
    }

    [Fact]
    public async Task A_link_that_is_ended_is_not_known_afterwards_and_marks_whom_it_had_led_to()
    {
        await Keep(
            Charted.Linking(Ledger, "Encounter/1", "1", 0, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/bed")),
            Charted.Vacuum(Ledger, "1", "1", "Location/bed", 190));
        await SettleAll();
        var moved = await KeepOne(Charted.Linking(Ledger, "Encounter/1", "2", 1, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/other")));

        Assert.Equal([190], await Vacuums("Patient/1", new Position(moved.Value - 1)));
        Assert.Equal([], await Vacuums("Patient/1", moved));
        var marked = new List<Entity>();
        while (await Claim() is { } work)
        {
            marked.Add(work.Patient);
        }

        Assert.Contains(Ledger.Intern("Patient/1"), marked);
    }

    [Fact]
    public async Task Rows_that_lead_to_no_patient_mark_what_they_are_about_until_a_patient_is_found()
    {
        await Keep(Charted.Linking(Ledger, "Device/reg", "1", 0, (LinkKind.StandsAt, "Device/reg", "Location/bed")));
        Assert.Null(await Claim());
        var at = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Device/reg", 190));
        Assert.Equal([190], await Vacuums("Device/reg", at));
        Assert.Equal(Ledger.Intern("Device/reg"), (await Claim())!.Patient);
        await Keep(Charted.Linking(Ledger, "Encounter/1", "1", 0, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/bed")));

        Assert.Equal(Ledger.Intern("Patient/1"), (await Claim())!.Patient);
        Assert.Equal(Ledger.Intern("Device/reg"), (await Claim(Now + Lease))!.Patient);
    }

    [Fact]
    public async Task A_claim_past_its_lease_is_taken_by_another_and_the_first_is_refused()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 10));
        var slow = (await Claim())!;
        Assert.Null(await Claim(Now + Lease - TimeSpan.FromTicks(1)));

        var second = (await Claim(Now + Lease))!;

        Assert.True(second.Fence > slow.Fence);
        Assert.Equal(slow.Affected, second.Affected);
        Assert.Equal(Committed.StaleFence, await Ledger.DecideAsync(Decide(slow) with { Changes = [Finding(Guid.NewGuid(), slow.Patient)] }, Stop));
        Assert.Empty(await Ledger.FindingsAsync(slow.Patient, Stop));
        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide(second), Stop));
        Assert.Equal(Committed.Already, await Ledger.DecideAsync(Decide(second), Stop));
        Assert.Null(await Claim(Now.AddDays(1)));
    }

    [Fact]
    public async Task A_patient_changed_while_claimed_is_judged_once_more()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 10));
        var first = (await Claim())!;
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120, at: 50));
        Assert.Null(await Claim());

        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide(first), Stop));

        var second = (await Claim())!;
        Assert.Equal(new TimeRange(Charted.Minutes(50), Charted.Minutes(50)), second.Affected);
        Assert.Equal(2, second.UpTo.Value);
    }

    [Fact]
    public async Task A_claim_that_ran_out_is_claimed_again_with_what_changed_since()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 10));
        await Claim();
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120, at: 50));

        Assert.Equal(new TimeRange(Charted.Minutes(10), Charted.Minutes(50)), (await Claim(Now + Lease))!.Affected);
    }

    [Fact]
    public async Task Two_claimants_share_the_work_and_never_the_patient()
    {
        await Keep(Enumerable.Range(0, 60).Select(i => Charted.Vacuum(Ledger, $"{i}", "1", $"Patient/{i}", 120)).ToArray());

        await ClaimAllWith(Ledger, Ledger, patients: 60);
    }

    [Fact]
    public async Task Two_ledgers_on_one_store_share_positions_names_and_work()
    {
        await Ledger.DisposeAsync();
        await using var one = await OpenAsync(shared: true);
        await using var two = await OpenAsync(shared: true);

        var kept = await Task.WhenAll(Enumerable.Range(0, 30).Select(i => Task.Run(async () =>
        {
            var ledger = i % 2 == 0 ? one : two;
            return await ledger.KeepAsync([Charted.Vacuum(ledger, $"{i}", "1", $"Patient/{i / 2}", 100 + i)], null, Stop);
        })));

        Assert.Equal(Enumerable.Range(1, 30).Select(i => (long)i), kept.Select(k => k[0].Position.Value).Order());
        Assert.All(Enumerable.Range(0, 15), i => Assert.Equal(one.Intern($"Patient/{i}"), two.Intern($"Patient/{i}")));
        using (var lease = await two.LoadAsync(two.Intern("Patient/3"), TimeRange.All, new Position(30), Stop))
        {
            Assert.Equal([106, 107], Digits(lease).Order());
        }

        await ClaimAllWith(one, two, patients: 15);
        await VerifySound(two);
    }

    private static async Task ClaimAllWith(ILedger one, ILedger two, int patients)
    {
        var claimed = new ConcurrentBag<Entity>();
        await Task.WhenAll(Claimant(one), Claimant(two));

        Assert.Equal(patients, claimed.Count);
        Assert.Equal(patients, claimed.Distinct().Count());

        Task Claimant(ILedger ledger) => Task.Run(async () =>
        {
            while (await ledger.ClaimAsync(WorkKind.Judge, Lease, Now, Stop) is { } work)
            {
                claimed.Add(work.Patient);
                Assert.Equal(Committed.Yes, await ledger.DecideAsync(Decide(work), Stop));
            }
        });
    }
}
