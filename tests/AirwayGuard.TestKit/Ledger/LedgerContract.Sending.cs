using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    private static readonly Guid Flag = new("0f0e0d0c-0b0a-0908-0706-050403020100");

    [Fact]
    public async Task A_message_is_claimed_by_one_sender_and_confirmed()
    {
        await Send(Flag, "one");
        var sending = (await ClaimSending())!;
        Assert.Equal((WorkKind.Send, Flag, 1, Ledger.Intern("Patient/1")), (sending.Kind, sending.Outgoing, sending.Attempts, sending.Patient));
        Assert.Null(await ClaimSending());

        Assert.Equal(Committed.Yes, await Ledger.SettleAsync(ReceiptOf(sending, SendState.Confirmed), Stop));

        Assert.Equal(Committed.Already, await Ledger.SettleAsync(ReceiptOf(sending, SendState.Confirmed), Stop));
        Assert.Null(await ClaimSending(Now.AddDays(1)));
        var state = await Ledger.StateAsync(Stop);
        Assert.Equal((0, 0, 1, 0), (state.Pending, state.Unknown, state.Confirmed, state.Parked));
        Assert.Equal(ArrivalKind.Receipt, (await Ledger.ArrivalAsync(state.Newest, Stop))!.Kind);
    }

    [Fact]
    public async Task Where_a_resource_was_met_is_known_without_a_version_until_it_is_confirmed()
    {
        await Send(Flag, "one");
        await Ledger.NoteMadeAsync(Guid.NewGuid(), "5", Stop);
        Assert.Null(await Ledger.LastSentAsync(Flag, Stop));

        await Ledger.NoteMadeAsync(Flag, "76", Stop);
        await Ledger.NoteMadeAsync(Flag, "78", Stop);
        await ReopenAsync();
        Assert.Equal(new ServerVersion("76", ""), await Ledger.LastSentAsync(Flag, Stop));

        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Confirmed) with { ServerId = "76", ServerVersion = "4" }, Stop);
        await Ledger.NoteMadeAsync(Flag, "79", Stop);
        Assert.Equal(new ServerVersion("76", "4"), await Ledger.LastSentAsync(Flag, Stop));
    }

    [Fact]
    public async Task What_is_to_be_tried_again_and_was_met_on_the_server_is_known_to_be_there()
    {
        await Send(Flag, "one");

        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Unknown) with { ServerId = "76", ServerVersion = "1" }, Stop);

        Assert.Equal(new ServerVersion("76", ""), await Ledger.LastSentAsync(Flag, Stop));
    }

    [Theory]
    [InlineData(SendState.Pending)]
    [InlineData(SendState.Unknown)]
    public async Task A_message_to_be_tried_again_waits_for_its_time(SendState state)
    {
        await Send(Flag, "one");
        var sending = (await ClaimSending())!;
        await Ledger.SettleAsync(ReceiptOf(sending, state, notBefore: Now.AddMinutes(7)), Stop);
        var counts = await Ledger.StateAsync(Stop);
        Assert.Equal(1, state == SendState.Pending ? counts.Pending : counts.Unknown);
        Assert.Null(await ClaimSending(Now.AddMinutes(7).AddTicks(-1)));

        var again = (await ClaimSending(Now.AddMinutes(7)))!;

        Assert.Equal((Flag, 2), (again.Outgoing, again.Attempts));
        Assert.True(again.Fence > sending.Fence);
    }

    [Fact]
    public async Task A_parked_message_rests_until_a_newer_one_takes_its_place()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Parked, code: "AG5999"), Stop);
        Assert.Null(await ClaimSending(Now.AddDays(1)));
        Assert.Equal([(Flag, "AG5999")], (await Ledger.ParkedAsync(Stop)).Select(item => (item.Outgoing!.Value, item.Code)));
        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Parked);

        await Send(Flag, "two");

        Assert.Empty(await Ledger.ParkedAsync(Stop));
        Assert.Equal((Flag, 1), ((await ClaimSending())!.Outgoing, (await Ledger.StateAsync(Stop)).Pending));
    }

    [Fact]
    public async Task A_sender_past_its_lease_is_refused_and_its_message_is_unknown()
    {
        await Send(Flag, "one");
        var slow = (await ClaimSending())!;

        var second = (await ClaimSending(Now + Lease))!;

        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Unknown);
        Assert.Equal(Committed.StaleFence, await Ledger.SettleAsync(ReceiptOf(slow, SendState.Confirmed), Stop));
        Assert.Equal(Committed.Yes, await Ledger.SettleAsync(ReceiptOf(second, SendState.Confirmed), Stop));
        Assert.Equal(Committed.StaleFence, await Ledger.SettleAsync(ReceiptOf(second with { Outgoing = Guid.NewGuid() }, SendState.Confirmed), Stop));
    }

    [Fact]
    public async Task A_newer_message_under_a_key_in_flight_stays_pending_after_the_old_receipt()
    {
        await Send(Flag, "one");
        var old = (await ClaimSending())!;
        await Send(Flag, "two");
        Assert.Null(await ClaimSending());

        Assert.Equal(Committed.Yes, await Ledger.SettleAsync(ReceiptOf(old, SendState.Confirmed), Stop));

        var newer = (await ClaimSending())!;
        Assert.Equal("two", (await Ledger.OutgoingAsync(newer.Outgoing, Stop))!.Content);
        Assert.Equal(1, newer.Attempts);
        await Ledger.SettleAsync(ReceiptOf(newer, SendState.Confirmed), Stop);
        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Confirmed);
    }

    [Fact]
    public async Task What_the_server_gave_at_the_last_confirmation_is_remembered()
    {
        Assert.Null(await Ledger.LastSentAsync(Flag, Stop));
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Confirmed), Stop);
        await Send(Flag, "two");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Unknown) with { ServerId = "88", ServerVersion = "9" }, Stop);

        Assert.Equal(new ServerVersion("77", "1"), await Ledger.LastSentAsync(Flag, Stop));
    }

    [Fact]
    public async Task How_long_the_oldest_message_has_waited_is_known_after_it_was_tried_renewed_and_reopened_and_ends_when_it_is_taken()
    {
        Assert.Null((await Ledger.StateAsync(Stop)).WaitingSince);
        await Send(Flag, "one", at: Now);
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Unknown), Stop);
        await Send(Flag, "two", at: Now.AddMinutes(1));
        await Send(Guid.NewGuid(), "other", at: Now.AddMinutes(2));
        await ReopenAsync();
        Assert.Equal(Now, (await Ledger.StateAsync(Stop)).WaitingSince);

        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Confirmed), Stop);
        Assert.Equal(Now.AddMinutes(2), (await Ledger.StateAsync(Stop)).WaitingSince);
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Parked, code: "AG5999"), Stop);
        Assert.Null((await Ledger.StateAsync(Stop)).WaitingSince);
        await Send(Flag, "three", at: Now.AddMinutes(3));
        Assert.Equal(Now.AddMinutes(3), (await Ledger.StateAsync(Stop)).WaitingSince);
    }

    [Fact]
    public async Task Messages_go_out_in_the_order_in_which_they_were_decided()
    {
        var keys = Enumerable.Range(0, 5).Select(_ => Guid.NewGuid()).ToArray();
        foreach (var key in keys)
        {
            await Send(key, key.ToString());
        }

        foreach (var key in keys)
        {
            Assert.Equal(key, (await ClaimSending())!.Outgoing);
        }
    }

    [Fact]
    public async Task A_claim_to_send_given_back_is_no_try_and_its_message_is_unknown()
    {
        await Send(Flag, "one");
        var sending = (await ClaimSending())!;

        Assert.Equal(Committed.Yes, await Ledger.ReleaseAsync(sending, Stop));

        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Unknown);
        Assert.Equal(Committed.Already, await Ledger.ReleaseAsync(sending, Stop));
        var again = (await ClaimSending())!;
        Assert.Equal((Flag, 1), (again.Outgoing, again.Attempts));
        Assert.Equal(Committed.StaleFence, await Ledger.ReleaseAsync(sending, Stop));
        Assert.Equal(Committed.Yes, await Ledger.SettleAsync(ReceiptOf(again, SendState.Confirmed), Stop));
    }

    [Fact]
    public async Task A_newer_message_under_a_key_whose_claim_is_given_back_is_sent_with_all_its_tries()
    {
        await Send(Flag, "one");
        var old = (await ClaimSending())!;
        await Send(Flag, "two");

        Assert.Equal(Committed.Yes, await Ledger.ReleaseAsync(old, Stop));

        var newer = (await ClaimSending())!;
        Assert.Equal(("two", 1), ((await Ledger.OutgoingAsync(newer.Outgoing, Stop))!.Content, newer.Attempts));
    }

    [Fact]
    public async Task What_is_parked_is_listed_once_with_its_reason()
    {
        await Send(Flag, "one");
        var sending = (await ClaimSending())!;
        var (arrival, message) = (new ParkedItem(new Position(1), null, "AG4999", "Observation/1", Now), new ParkedItem(null, Flag, "AG5999", "gate", Now));
        await Ledger.ParkAsync(arrival, Stop);
        await Ledger.ParkAsync(message, Stop);
        await Ledger.ParkAsync(message, Stop);

        Assert.Equal([arrival, message], await Ledger.ParkedAsync(Stop));
        Assert.Equal(Committed.StaleFence, await Ledger.SettleAsync(ReceiptOf(sending, SendState.Pending), Stop));
        Assert.Null(await ClaimSending(Now.AddDays(1)));
    }
}
