using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    [Fact]
    public async Task Positions_count_from_one_without_gaps_over_commits_and_callers()
    {
        var verbs = Enumerable.Range(0, 40).Select(i => Keep(
            Charted.Vacuum(Ledger, $"a{i}", "1", $"Patient/{i % 7}", 100),
            Charted.Vacuum(Ledger, $"b{i}", "1", $"Patient/{i % 7}", 110)).AsTask());

        var kept = (await Task.WhenAll(verbs)).SelectMany(k => k).ToArray();

        Assert.All(kept, k => Assert.True(k.IsNew));
        Assert.Equal(Enumerable.Range(1, 80).Select(i => (long)i), kept.Select(k => k.Position.Value).Order());
        Assert.Equal(80, (await Ledger.StateAsync(Stop)).Newest.Value);
    }

    [Fact]
    public async Task What_arrived_is_given_back_as_it_arrived()
    {
        var row = Charted.Vacuum(Ledger, "1", "3", "Patient/1", 120, knownAfter: 5);
        var act = new ReadArrival(new Arrival(ArrivalKind.PersonsAct, "review", null, null, null, Now, KnownBy.Received, "{\"act\":\"closed\"}"u8.ToArray()), new Reading());
        var kept = await Keep(row, act);

        foreach (var (sent, back) in new[] { (row.Arrival, await Ledger.ArrivalAsync(kept[0].Position, Stop)), (act.Arrival, await Ledger.ArrivalAsync(kept[1].Position, Stop)) })
        {
            Assert.NotNull(back);
            Assert.Equal(sent.Body.ToArray(), back.Body.ToArray());
            Assert.Equal(sent with { Body = default }, back with { Body = default });
        }

        Assert.Null(await Ledger.ArrivalAsync(new Position(3), Stop));
    }

    [Fact]
    public async Task Empty_and_large_bodies_are_kept_whole()
    {
        var large = new byte[3_000_000];
        new Random(5).NextBytes(large.AsSpan(0, 1_000_000));
        var empty = Charted.Vacuum(Ledger, "1", "1", "Patient/1", 1);
        var big = Charted.Vacuum(Ledger, "2", "1", "Patient/1", 1);
        var kept = await Keep(empty with { Arrival = empty.Arrival with { Body = default } }, big with { Arrival = big.Arrival with { Body = large } });

        Assert.Equal(0, (await Ledger.ArrivalAsync(kept[0].Position, Stop))!.Body.Length);
        Assert.True((await Ledger.ArrivalAsync(kept[1].Position, Stop))!.Body.Span.SequenceEqual(large));
    }

    [Fact]
    public async Task What_cannot_be_read_is_parked_in_the_commit_that_keeps_it_and_once()
    {
        var unreadable = new Reading { Self = Ledger.Intern("Observation/1"), Readable = false };
        unreadable.Problems.Add(new Core.Diagnostics.Problem(Core.Diagnostics.Codes.Unreadable, "Observation/1", "x"));
        var arrival = new ReadArrival(Charted.Resource("Observation", "1", "1", 0, "{"), unreadable);
        var before = (await Ledger.AuditAsync([], Now, Stop)).Number;
        var kept = await Ledger.KeepAsync([arrival, Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120)], new SweepCursor("rows", Now, null), Stop);
        await Ledger.KeepAsync([arrival], null, Stop);

        Assert.Equal([new ParkedItem(kept[0].Position, null, "AG2009", "Observation", Now)], await Ledger.ParkedAsync(Stop));
        Assert.Equal(before + 2, (await Ledger.AuditAsync([], Now, Stop)).Number);
    }

    [Fact]
    public async Task The_same_version_again_is_a_duplicate_and_changes_nothing()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120));
        await SettleAll();

        var again = await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 130, knownAfter: 9), Charted.Vacuum(Ledger, "1", "1", "Patient/1", 130));

        Assert.All(again, k => Assert.Equal(new KeptArrival(first, IsNew: false), k));
        Assert.Equal([120], await Vacuums("Patient/1", new Position(9)));
        Assert.Null(await Claim());
        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Arrivals);
    }

    [Fact]
    public async Task Without_a_version_an_unchanged_body_is_a_duplicate_but_one_that_returns_is_news()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", null, "Patient/1", 120, knownAfter: 1));
        Assert.False((await Keep(Charted.Vacuum(Ledger, "1", null, "Patient/1", 120, knownAfter: 2)))[0].IsNew);
        var second = await KeepOne(Charted.Vacuum(Ledger, "1", null, "Patient/1", 130, knownAfter: 3));
        Assert.Equal(new KeptArrival(first, IsNew: false), (await Keep(Charted.Vacuum(Ledger, "1", null, "Patient/1", 120, knownAfter: 1)))[0]);

        var third = await KeepOne(Charted.Vacuum(Ledger, "1", null, "Patient/1", 120, knownAfter: 4));

        Assert.Equal([first, second, third], await Ledger.VersionsAsync(Ledger.Intern("Observation/1"), Stop));
        Assert.Equal([120], await Vacuums("Patient/1", third));
    }

    [Fact]
    public async Task A_newer_version_takes_the_place_of_the_older_from_its_position_on()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, knownAfter: 1));
        var other = await KeepOne(Charted.Vacuum(Ledger, "2", "1", "Patient/1", 90, knownAfter: 2, at: 30));
        var second = await KeepOne(Charted.Vacuum(Ledger, "1", "2", "Patient/1", 200, knownAfter: 3));

        Assert.Equal([120], await Vacuums("Patient/1", first));
        Assert.Equal([120, 90], await Vacuums("Patient/1", other));
        Assert.Equal([200, 90], await Vacuums("Patient/1", second));
        Assert.Equal([], await Vacuums("Patient/1", new Position(0)));
    }

    [Fact]
    public async Task Versions_known_at_the_same_time_go_by_their_arrival()
    {
        var kept = await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120), Charted.Vacuum(Ledger, "1", "2", "Patient/1", 200));

        Assert.Equal([120], await Vacuums("Patient/1", kept[0].Position));
        Assert.Equal([200], await Vacuums("Patient/1", kept[1].Position));
    }

    [Fact]
    public async Task A_later_number_stands_though_a_clock_that_was_set_back_stamped_it_earlier()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", "9", "Patient/1", 200, knownAfter: 30));
        var second = await KeepOne(Charted.Vacuum(Ledger, "1", "10", "Patient/1", 120, knownAfter: 20));
        var stale = await KeepOne(Charted.Vacuum(Ledger, "1", "8", "Patient/1", 180, knownAfter: 29));

        Assert.Equal([200], await Vacuums("Patient/1", first));
        Assert.Equal([120], await Vacuums("Patient/1", second));
        Assert.Equal([120], await Vacuums("Patient/1", stale));
    }

    [Fact]
    public async Task An_older_version_that_comes_late_is_kept_and_stands_for_nothing()
    {
        var newer = await KeepOne(Charted.Vacuum(Ledger, "1", "2", "Patient/1", 200, knownAfter: 5));
        await SettleAll();
        var older = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Patient/2", 120, knownAfter: 1));

        Assert.Equal([200], await Vacuums("Patient/1", older));
        Assert.Equal([], await Vacuums("Patient/2", older));
        Assert.Equal([older, newer], await Ledger.VersionsAsync(Ledger.Intern("Observation/1"), Stop));
        Assert.Null(await Claim());
    }

    [Fact]
    public async Task A_deletion_ends_what_its_resource_said_and_a_later_version_says_it_anew()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, knownAfter: 1));
        await SettleAll();
        var gone = await KeepOne(Charted.Deletion(Ledger, "1", null, knownAfter: 2));
        Assert.Equal([120], await Vacuums("Patient/1", new Position(gone.Value - 1)));
        Assert.Equal([], await Vacuums("Patient/1", gone));
        Assert.Equal(Ledger.Intern("Patient/1"), (await Claim())!.Patient);
        Assert.False((await Keep(Charted.Deletion(Ledger, "1", null, knownAfter: 3)))[0].IsNew);

        var back = await KeepOne(Charted.Vacuum(Ledger, "1", "3", "Patient/1", 140, knownAfter: 4));

        Assert.Equal([140], await Vacuums("Patient/1", back));
        Assert.True((await Keep(Charted.Deletion(Ledger, "1", null, knownAfter: 5)))[0].IsNew);
    }

    [Fact]
    public async Task A_deletion_that_bears_the_version_it_deletes_is_no_duplicate()
    {
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, knownAfter: 1));
        var gone = (await Keep(Charted.Deletion(Ledger, "1", "1", knownAfter: 2)))[0];

        Assert.True(gone.IsNew);
        Assert.Equal([], await Vacuums("Patient/1", gone.Position));
    }

    [Fact]
    public async Task A_row_is_known_from_the_first_position_of_the_commit_that_first_held_it()
    {
        await Keep(Charted.Vacuum(Ledger, "0", "1", "Patient/1", 1));
        await Keep(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 2, at: 1), Charted.Vacuum(Ledger, "2", "1", "Patient/1", 3, at: 2));
        var last = await KeepOne(Charted.Vacuum(Ledger, "2", "2", "Patient/1", 4, knownAfter: 1, at: 2));

        using var lease = await Ledger.LoadAsync(Ledger.Intern("Patient/1"), TimeRange.All, last, Stop);
        Assert.Equal([1L, 2L, 2L], lease.View.Of(Concepts.VacuumPressure).ToArray().Select(fact => fact.RowKnown.Value));
    }

    [Fact]
    public async Task Every_member_of_a_fact_survives_at_its_widest()
    {
        var self = Ledger.Intern("Observation/1");
        var reading = new Reading { Self = self };
        var patient = Ledger.Intern("Patient/1");
        var wide = new Fact(
            new FactId(default, ushort.MaxValue), patient, Ledger.Intern("Encounter/1"), Ledger.Intern("Device/1"), Ledger.Intern("Procedure/1"), self,
            Ledger.Intern("urn:flow|", EntityKind.GroupKey), new Concept((ushort)(Concepts.Count - 1)), (FactMarks)ushort.MaxValue, -840, long.MinValue, long.MaxValue,
            default, default, new FactValue(long.MinValue, int.MinValue, byte.MaxValue, (ValueKind)255, (Unit)255, (Comparator)255));
        reading.Facts.Add(wide);
        reading.Facts.Add(wide with { Id = default, OffsetMinutes = 840, EffectiveFrom = long.MaxValue, Value = FactValue.Number(long.MaxValue, 18, Unit.Gram, rowCode: Ledger.Intern("sys|1", EntityKind.RowCode).Key) });
        var at = await KeepOne(new ReadArrival(Charted.Resource("Observation", "1", "1", 0, "{}"), reading));

        using var lease = await Ledger.LoadAsync(patient, TimeRange.All, at, Stop);

        var expected = reading.Facts.Select(fact => fact with { Id = fact.Id with { Arrival = at }, RowKnown = at, KnownUntil = Position.Never });
        Assert.Equal(expected, lease.View.Facts.ToArray());
    }

    [Fact]
    public async Task The_cursor_moves_with_its_commit_only()
    {
        Assert.Null(await Ledger.CursorAsync("quick", Stop));
        var cursor = new SweepCursor("quick", Charted.Morning, "17");
        await Ledger.KeepAsync([Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120)], cursor, Stop);
        Assert.Equal(cursor, await Ledger.CursorAsync("quick", Stop));

        // One fact twice under one id is a fault of the reader: the commit is undone, its cursor with it.
        var twice = Charted.Vacuum(Ledger, "2", "1", "Patient/1", 120);
        twice.Reading.Facts.Add(twice.Reading.Facts[0]);
        await Assert.ThrowsAnyAsync<Exception>(async () => await Ledger.KeepAsync([Charted.Vacuum(Ledger, "3", "1", "Patient/1", 1), twice], cursor with { LastId = "18" }, Stop));

        Assert.Equal(cursor, await Ledger.CursorAsync("quick", Stop));
        Assert.Equal(1, (await Ledger.StateAsync(Stop)).Arrivals);
        await Ledger.KeepAsync([], cursor with { LastId = null }, Stop);
        Assert.Equal(cursor with { LastId = null }, await Ledger.CursorAsync("quick", Stop));
    }

    [Fact]
    public async Task A_ledger_serves_the_server_it_was_bound_to_and_refuses_another()
    {
        Assert.Null(await Ledger.BindAsync(Server, "unit-7", Stop));
        Assert.Null(await Ledger.BindAsync(Server, "unit-7", Stop));
        Assert.Null(await Ledger.BindAsync(Server + "/", "unit-7/", Stop));
        Assert.Equal("AG1602", (await Ledger.BindAsync(Server, "unit-8", Stop))!.Code.Id);
        Assert.Equal("AG1602", (await Ledger.BindAsync("https://other.example/fhir", "unit-7", Stop))!.Code.Id);
    }
}
