using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task A_decision_is_written_whole_and_a_later_one_overwrites_by_key()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        var work = (await Claim())!;
        var (key, outgoing) = (Guid.NewGuid(), new Outgoing(Guid.NewGuid(), "fhir", work.Patient, "{\"a\":1}"));
        var finding = Finding(key, work.Patient);
        var before = (await Trail()).Count;

        await Ledger.DecideAsync(
            Decide(work) with { Changes = [finding], Outgoing = [outgoing], Due = [new DueTime(Now.UtcTicks, "c")], Audit = [new AuditNote("judged", "Patient/1", "{}", default)] }, Stop);

        AssertSame(finding, Assert.Single(await Ledger.FindingsAsync(work.Patient, Stop)));
        AssertSame(finding, (await Ledger.FindingAsync(key, Stop))!);
        Assert.Null(await Ledger.FindingAsync(outgoing.Key, Stop));
        Assert.Equal(outgoing, await Ledger.OutgoingAsync(outgoing.Key, Stop));
        Assert.Equal(Now, await Ledger.NextDueAsync(Stop));
        Assert.Equal(before + 1, (await Trail()).Count);

        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120));
        var cleared = finding with { State = FindingState.Cleared, Count = 3, Late = true, BasisSha256 = "basis-2", Content = "{}"u8.ToArray() };
        await Ledger.DecideAsync(Decide((await Claim())!) with { Changes = [cleared] }, Stop);
        AssertSame(cleared, Assert.Single(await Ledger.FindingsAsync(work.Patient, Stop)));
        Assert.Null(await Ledger.NextDueAsync(Stop));
    }

    [Fact]
    public async Task A_decision_gives_recorded_occurrences_their_present_state_and_spell_with_the_spells_own_or_changes_none()
    {
        var (first, second, old, other) = (Guid.NewGuid(), Guid.NewGuid(), Guid.NewGuid(), Guid.NewGuid());
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 220));
        var work = (await Claim())!;
        FindingRecord[] raised = [Of(first, old), Of(second, old), Of(old, Guid.Empty) with { Kind = FindingKind.Spell }];
        await Ledger.DecideAsync(Decide(work) with { Changes = [.. raised] }, Stop);
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120));
        var stale = (await Claim())!;
        var again = (await Claim(Now + Lease))!;
        FindingRecord[] changed =
        [
            raised[0] with { State = FindingState.Cleared }, raised[1] with { Parent = other },
            raised[2] with { State = FindingState.Cleared }, Of(other, Guid.Empty) with { Kind = FindingKind.Spell },
        ];

        Assert.Equal(Committed.StaleFence, await Ledger.DecideAsync(Decide(stale) with { Changes = [.. changed] }, Stop));
        await AreRecorded(raised);
        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide(again) with { Changes = [.. changed] }, Stop));
        await ReopenAsync();
        await AreRecorded(changed);

        FindingRecord Of(Guid key, Guid parent) => Finding(key, work.Patient) with { Parent = parent };

        async Task AreRecorded(FindingRecord[] expected)
        {
            var recorded = (await Ledger.FindingsAsync(work.Patient, Stop)).Select(record => (record.Key, record.Kind, record.State, record.Parent));
            Assert.Equal(expected.Select(record => (record.Key, record.Kind, record.State, record.Parent)).OrderBy(one => one.Key), recorded.OrderBy(one => one.Key));
        }
    }

    [Fact]
    public async Task A_finding_of_one_patient_is_not_written_over_by_a_decision_about_another()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120), Charted.Vacuum(Ledger, "2", "1", "Patient/2", 120));
        var works = new[] { (await Claim())!, (await Claim())! };
        var first = Finding(Guid.NewGuid(), works[0].Patient);
        Assert.Equal(Committed.Yes, await Ledger.DecideAsync(Decide(works[0]) with { Changes = [first] }, Stop));

        Assert.Equal(Committed.StaleFence, await Ledger.DecideAsync(Decide(works[1]) with { Changes = [first with { Patient = works[1].Patient }] }, Stop));

        AssertSame(first, Assert.Single(await Ledger.FindingsAsync(works[0].Patient, Stop)));
        Assert.Equal(works[1].Patient, (await Claim(Now + Lease))!.Patient);
    }

    [Fact]
    public async Task A_due_time_of_a_claimed_patient_waits_for_the_judgement_and_then_falls_due_once()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        var due = new DueTime(Now.AddMinutes(5).UtcTicks, "charting-missing");
        await Ledger.DecideAsync(Decide((await Claim())!) with { Due = [due] }, Stop);
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 130, knownAfter: 1));
        var work = (await Claim())!;

        Assert.Equal(0, await Ledger.RaiseDueAsync(Now.AddMinutes(6), Stop));
        await Ledger.DecideAsync(Decide(work) with { Due = [due] }, Stop);
        Assert.Equal(1, await Ledger.RaiseDueAsync(Now.AddMinutes(6), Stop));
        Assert.Equal(0, await Ledger.RaiseDueAsync(Now.AddMinutes(6), Stop));
    }

    [Fact]
    public async Task A_due_time_comes_back_once_as_an_arrival_and_marks_its_patient_also_after_a_restart()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        var work = (await Claim())!;
        var (soon, later) = (Now.AddMinutes(5), Now.AddMinutes(9));
        await Ledger.DecideAsync(Decide(work) with { Due = [new DueTime(soon.UtcTicks, "charting-missing"), new DueTime(later.UtcTicks, "other")] }, Stop);
        Assert.Equal(0, await Ledger.RaiseDueAsync(soon.AddTicks(-1), Stop));
        Assert.Null(await Claim());
        await ReopenAsync();

        Assert.Equal(soon, await Ledger.NextDueAsync(Stop));
        Assert.Equal(1, await Ledger.RaiseDueAsync(soon, Stop));
        Assert.Equal(0, await Ledger.RaiseDueAsync(soon, Stop));
        await ReopenAsync();
        Assert.Equal(0, await Ledger.RaiseDueAsync(soon, Stop));

        Assert.Equal(later, await Ledger.NextDueAsync(Stop));
        var arrival = (await Ledger.ArrivalAsync(new Position(2), Stop))!;
        Assert.Equal((ArrivalKind.DueTime, soon), (arrival.Kind, arrival.KnownAt));
        Assert.Contains("charting-missing", System.Text.Encoding.UTF8.GetString(arrival.Body.Span), StringComparison.Ordinal);
        var again = (await Claim())!;
        Assert.Equal((work.Patient, new Position(2), new TimeRange(soon.UtcTicks, soon.UtcTicks)), (again.Patient, again.UpTo, again.Affected));
    }

    [Fact]
    public async Task A_window_takes_what_reaches_into_it_and_what_has_no_time()
    {
        await Keep(
            Lasting("a", 1, from: 0, to: 10),
            Lasting("b", 2, from: 0, to: 40),
            Lasting("c", 3, from: 30, to: 30),
            Lasting("d", 4, from: 60, to: 90),
            Lasting("e", 5, from: null, to: null));

        var window = new TimeRange(Charted.Minutes(20), Charted.Minutes(50));
        Assert.Equal([2, 3, 5], (await Vacuums("Patient/1", new Position(5), window)).Order());
        Assert.Equal([1, 2, 3, 4, 5], (await Vacuums("Patient/1", new Position(5))).Order());

        ReadArrival Lasting(string id, int mmHg, int? from, int? to)
        {
            var arrival = Charted.Vacuum(Ledger, id, "1", "Patient/1", mmHg);
            arrival.Reading.Facts[0] = arrival.Reading.Facts[0] with
            {
                EffectiveFrom = from is { } f ? Charted.Minutes(f) : long.MinValue,
                EffectiveTo = to is { } t ? Charted.Minutes(t) : long.MaxValue,
                Marks = from is null ? FactMarks.Timeless : FactMarks.None,
            };
            return arrival;
        }
    }

    [Fact]
    public async Task History_gives_each_patient_once_with_its_facts_and_the_points_at_which_it_was_judged()
    {
        for (var i = 0; i < 20; i++)
        {
            await Keep(Charted.Vacuum(Ledger, $"{i}", "1", $"Patient/{i % 10}", i));
            await Ledger.DecideAsync(Decide((await Claim())!) with { AsOf = i, BasisSha256 = $"basis-{i}" }, Stop);
        }

        var seen = new Dictionary<Entity, int>();
        for (var partition = 0; partition < 3; partition++)
        {
            await foreach (var history in Ledger.HistoryAsync(new HistoryRange(TimeRange.All, new Position(15), partition, 3), Stop))
            {
                using var facts = history.Facts;
                Assert.Equal(partition, history.Patient.Key % 3);
                var number = int.Parse(Ledger.NameOf(history.Patient)["Patient/".Length..], System.Globalization.CultureInfo.InvariantCulture);
                var rounds = number < 5 ? new[] { number, number + 10 } : [number];
                Assert.Equal(rounds.Select(r => (long)r), Digits(facts));
                Assert.Equal(rounds.Select(r => new JudgedPoint(new Position(r + 1), r, $"basis-{r}")), history.JudgedAt);
                seen.Add(history.Patient, rounds.Length);
            }
        }

        Assert.Equal(10, seen.Count);
    }

    [Fact]
    public async Task Everything_is_there_again_after_a_restart()
    {
        await Ledger.BindAsync(Server, "unit-7", Stop);
        await Ledger.KeepAsync([Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120)], new SweepCursor("quick", Charted.Morning, null), Stop);
        var work = (await Claim())!;
        var outgoing = new Outgoing(Guid.NewGuid(), "fhir", work.Patient, "{}");
        await Ledger.DecideAsync(Decide(work) with { Changes = [Finding(Guid.NewGuid(), work.Patient)], Outgoing = [outgoing] }, Stop);
        await Ledger.ParkAsync(new ParkedItem(new Position(1), null, "AG4999", "Observation/1", Now), Stop);
        await Keep(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 130, at: 1));
        var (state, claimed) = (await Ledger.StateAsync(Stop), (await Claim())!);

        await ReopenAsync();

        Assert.Null(state.HeldUntil);
        Assert.Equal(state with { HeldUntil = Now + Lease }, await Ledger.StateAsync(Stop));
        Assert.Null(await Claim());
        Assert.Equal(claimed.Fence + 1, (await Claim(Now + Lease))!.Fence);
        Assert.Equal([120, 130], await Vacuums("Patient/1", new Position(2)));
        Assert.Single(await Ledger.FindingsAsync(work.Patient, Stop));
        Assert.Single(await Ledger.ParkedAsync(Stop));
        Assert.Equal(outgoing, await Ledger.OutgoingAsync(outgoing.Key, Stop));
        Assert.NotNull(await Ledger.CursorAsync("quick", Stop));
        Assert.NotNull(await Ledger.BindAsync(Server, "unit-8", Stop));
        Assert.Equal(3, (await KeepOne(Charted.Vacuum(Ledger, "3", "1", "Patient/1", 1))).Value);
        await VerifySound(Ledger);
    }

    private static void AssertSame(FindingRecord expected, FindingRecord actual)
    {
        Assert.Equal(expected.Content.ToArray(), actual.Content.ToArray());
        Assert.Equal(expected with { Content = default }, actual with { Content = default });
    }
}
