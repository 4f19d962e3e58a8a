using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private const int LongAgo = -600, Lately = 230;

    [Fact]
    public async Task What_is_fresh_goes_out_before_what_stands_and_that_before_history()
    {
        var keys = new List<(Guid Key, Urgency Urgency)>();
        foreach (var urgency in new[] { Urgency.History, Urgency.Stands, Urgency.Fresh, Urgency.History, Urgency.Stands, Urgency.Fresh })
        {
            keys.Add((Guid.NewGuid(), urgency));
            await Send(keys[^1].Key, $"{keys.Count}", urgency);
        }

        var claimed = new List<Guid>();
        while (await ClaimSending() is { } sending)
        {
            claimed.Add(sending.Outgoing);
        }

        Assert.Equal([keys[2].Key, keys[5].Key, keys[1].Key, keys[4].Key, keys[0].Key, keys[3].Key], claimed);
    }

    [Fact]
    public async Task A_message_that_waits_for_another_try_does_not_hold_up_less_urgent_ones()
    {
        var history = Guid.NewGuid();
        await Send(history, "old", Urgency.History);
        await Send(Flag, "new");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Unknown, notBefore: Now.AddMinutes(7)), Stop);

        Assert.Equal(history, (await ClaimSending())!.Outgoing);
    }

    [Theory]
    [InlineData(Urgency.Fresh, Urgency.History)]
    [InlineData(Urgency.History, Urgency.Fresh)]
    public async Task A_message_that_waits_becomes_no_less_urgent_by_a_newer_one_of_its_key(Urgency first, Urgency second)
    {
        await Send(Guid.NewGuid(), "another", Urgency.Stands);
        await Send(Flag, "one", first);

        await Send(Flag, "two", second);

        Assert.Equal(Flag, (await ClaimSending())!.Outgoing);
    }

    [Fact]
    public async Task What_was_confirmed_is_as_urgent_as_its_next_message()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Confirmed), Stop);
        var other = Guid.NewGuid();
        await Send(Flag, "two", Urgency.History);
        await Send(other, "another", Urgency.Stands);

        Assert.Equal(other, (await ClaimSending())!.Outgoing);
    }

    // Outside trial: a fresh breach waited behind every open stay when a rule set had been tightened.
    [Fact]
    public async Task A_patient_with_something_new_does_not_wait_behind_a_changed_basis()
    {
        await Ledger.AdoptBasisAsync("basis-1", null, Now, Stop);
        await Keep(Enumerable.Range(0, 40).Select(i => Charted.Vacuum(Ledger, $"{i}", "1", $"Patient/{i}", 120, LongAgo)).ToArray());
        await SettleAll();
        await Ledger.AdoptBasisAsync("basis-2", null, Now, Stop);

        await Keep(Charted.Vacuum(Ledger, "new", "1", "Patient/30", 220, Lately));

        // One of two at most is the backlog's.
        Assert.Contains(Ledger.Intern("Patient/30"), new[] { (await Claim())!.Patient, (await Claim())!.Patient });
    }

    [Fact]
    public async Task A_backlog_is_judged_in_the_order_of_the_effective_times_of_what_changed()
    {
        await Keep(
            Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, LongAgo, at: -300), Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120, LongAgo, at: -400),
            Charted.Vacuum(Ledger, "3", "1", "Patient/3", 120, LongAgo, at: -200), Charted.Vacuum(Ledger, "3b", "1", "Patient/3", 120, LongAgo, at: -500));

        Assert.Equal(
            [Ledger.Intern("Patient/3"), Ledger.Intern("Patient/2"), Ledger.Intern("Patient/1")],
            new[] { (await Claim())!.Patient, (await Claim())!.Patient, (await Claim())!.Patient });
    }

    [Fact]
    public async Task However_much_is_new_each_fourth_claim_is_the_backlogs()
    {
        await Keep(Charted.Vacuum(Ledger, "old", "1", "Patient/old", 120, LongAgo));
        await Keep(Enumerable.Range(0, 20).Select(i => Charted.Vacuum(Ledger, $"{i}", "1", $"Patient/{i}", 120, Lately)).ToArray());

        Assert.Contains(Ledger.Intern("Patient/old"), new[] { (await Claim())!.Patient, (await Claim())!.Patient, (await Claim())!.Patient, (await Claim())!.Patient });
    }

    [Fact]
    public async Task What_was_new_is_judged_first_also_after_a_claim_ran_out_and_no_longer_once_it_was_judged()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, LongAgo), Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120, LongAgo, at: 1));
        await Keep(Charted.Vacuum(Ledger, "new", "1", "Patient/2", 120, Lately));
        Assert.Equal(Ledger.Intern("Patient/2"), (await Claim())!.Patient);

        var again = (await Claim(Now + Lease))!;
        Assert.Equal(Ledger.Intern("Patient/2"), again.Patient);
        await Ledger.DecideAsync(Decide(again), Stop);
        await Keep(Charted.Vacuum(Ledger, "3", "1", "Patient/2", 120, LongAgo, at: 2));

        Assert.Equal(Ledger.Intern("Patient/1"), (await Claim(Now + Lease))!.Patient);
    }
}
