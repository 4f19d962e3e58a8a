using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task What_is_parked_again_keeps_its_number_and_its_first_time()
    {
        await Ledger.ParkAsync(new ParkedItem(new Position(1), null, "AG4999", "Observation", Now), Stop);
        var number = Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number;
        await Ledger.ParkAsync(new ParkedItem(new Position(1), null, "AG4999", "Observation", Now.AddHours(1)), Stop);

        var entry = Assert.Single(await Ledger.ParkedEntriesAsync(Stop));

        Assert.Equal((number, Now, Now.AddHours(1)), (entry.Number, entry.First, entry.Item.At));
    }

    [Fact]
    public async Task A_parked_message_put_back_waits_to_be_sent_with_its_attempts_counted_anew()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Parked, code: "AG5999"), Stop);
        var number = Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number;

        Assert.True(await Ledger.RetryParkedAsync(number, null, Stop));

        Assert.Empty(await Ledger.ParkedEntriesAsync(Stop));
        var again = (await ClaimSending())!;
        Assert.Equal((Flag, 1), (again.Outgoing, again.Attempts));
        Assert.Equal(("parked-retried", Flag.ToString()), await LastEntryAsync());
        Assert.False(await Ledger.RetryParkedAsync(number, null, Stop));
    }

    [Fact]
    public async Task A_parked_message_dropped_is_never_sent_and_its_reason_is_in_the_trail()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Parked, code: "AG5999"), Stop);
        var number = Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number;

        Assert.True(await Ledger.DropParkedAsync(number, "the server was taken down", Stop));

        Assert.Empty(await Ledger.ParkedEntriesAsync(Stop));
        Assert.Null(await ClaimSending(Now.AddDays(1)));
        Assert.Equal(("parked-dropped", Flag.ToString()), await LastEntryAsync());
        using var detail = JsonDocument.Parse((await Trail())[^1].Detail);
        Assert.Equal("the server was taken down", detail.RootElement.GetProperty("reason").GetString());
        Assert.False(await Ledger.DropParkedAsync(number, "again", Stop));
    }

    [Fact]
    public async Task A_newer_message_goes_out_though_the_one_before_was_dropped()
    {
        await Send(Flag, "one");
        await Ledger.SettleAsync(ReceiptOf((await ClaimSending())!, SendState.Parked, code: "AG5999"), Stop);
        await Ledger.DropParkedAsync(Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number, "old", Stop);

        await Send(Flag, "two");

        Assert.Equal("two", (await Ledger.OutgoingAsync((await ClaimSending())!.Outgoing, Stop))!.Content);
    }

    [Fact]
    public async Task A_parked_arrival_read_again_is_known_from_then_on_and_marks_its_patient()
    {
        var unread = Charted.Vacuum(Ledger, "1", "1", "Patient/1", 220);
        var position = await KeepOne(unread with { Reading = new Reading() });
        await Ledger.ParkAsync(new ParkedItem(position, null, "AG4999", "Observation", Now), Stop);
        await SettleAll();
        var number = Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number;

        Assert.True(await Ledger.RetryParkedAsync(number, unread with { Arrival = unread.Arrival with { Kind = ArrivalKind.NewBasis } }, Stop));

        var newest = (await Ledger.StateAsync(Stop)).Newest;
        Assert.Equal((0, 1), ((await Vacuums("Patient/1", position)).Count, (await Vacuums("Patient/1", newest)).Count));
        Assert.Equal(Ledger.Intern("Patient/1"), (await Claim())!.Patient);
        Assert.Empty(await Ledger.ParkedEntriesAsync(Stop));
    }

    [Fact]
    public async Task A_parked_arrival_read_again_does_not_take_the_place_of_a_version_that_came_after_it()
    {
        var unread = Charted.Vacuum(Ledger, "1", "1", "Patient/1", 220);
        var position = await KeepOne(unread with { Reading = new Reading() });
        await Ledger.ParkAsync(new ParkedItem(position, null, "AG4999", "Observation", Now), Stop);
        await Keep(Charted.Vacuum(Ledger, "1", "2", "Patient/1", 120, knownAfter: 5));

        await Ledger.RetryParkedAsync(Assert.Single(await Ledger.ParkedEntriesAsync(Stop)).Number, unread with { Arrival = unread.Arrival with { Kind = ArrivalKind.NewBasis } }, Stop);

        Assert.Equal([120], await Vacuums("Patient/1", (await Ledger.StateAsync(Stop)).Newest));
    }

    private async ValueTask<(string What, string Subject)> LastEntryAsync()
    {
        var last = (await Trail())[^1];
        return (last.What, last.Subject);
    }
}
