using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.TestKit.Ledger;

public abstract partial class LedgerContract
{
    /// <summary>Above whatever a ledger holds.</summary>
    private static readonly Position FarAhead = new(1L << 62);

    private int _charted;

    // Diameters always; vacuum and pass duration in the half hour from minute 60 to 90.
    private static QuestionScope HalfHour =>
        new([Concepts.TubeInnerDiameter, Concepts.BirthDate, Concepts.DeviceKind], [Concepts.VacuumPressure, Concepts.SuctionPass], new TimeRange(Charted.Minutes(60), Charted.Minutes(90)));

    // The value says the minute it is charted at, so that a fact is told by it.
    private async ValueTask Chart(Concept concept, int from, int? to = null, string about = "Patient/1", bool timeless = false)
    {
        var row = Ledger.Intern($"Observation/q{++_charted}");
        var fact = Charted.Fact(Ledger.Intern(about), row, concept, FactValue.Number(from, 0, Unit.MmHg), from);
        fact = timeless
            ? fact with { EffectiveFrom = long.MinValue, EffectiveTo = long.MaxValue, Marks = FactMarks.Timeless }
            : fact with { EffectiveTo = to is { } end ? Charted.Minutes(end) : fact.EffectiveTo };
        var reading = new Reading { Self = row };
        reading.Facts.Add(fact);
        await Keep(new ReadArrival(Charted.Resource("Observation", $"q{_charted}", "1", _charted, "{}"), reading));
    }

    private async ValueTask<IReadOnlyList<string>> Asked(QuestionScope scope, Position? at = null, string patient = "Patient/1")
    {
        using var lease = await Ledger.LoadAsync(Ledger.Intern(patient), scope, at ?? FarAhead, Stop);
        var told = new List<string>();
        foreach (ref readonly var fact in lease.View.Facts)
        {
            told.Add($"{fact.Concept.Code} {fact.Value.Digits}");
        }

        return told;
    }

    private async ValueTask<IReadOnlyList<string>> AskedLinks(QuestionScope scope, string patient = "Patient/1")
    {
        using var lease = await Ledger.LoadAsync(Ledger.Intern(patient), scope, FarAhead, Stop);
        var told = new List<string>();
        foreach (ref readonly var link in lease.View.Links)
        {
            told.Add($"{link.Kind} {Ledger.NameOf(link.From)} {Ledger.NameOf(link.To)}");
        }

        return told;
    }

    [Fact]
    public async Task A_question_asked_again_is_answered_by_what_is_known_then()
    {
        var scope = HalfHour;
        await Chart(Concepts.TubeInnerDiameter, 0);
        Assert.Equal(["tube-inner-diameter 0"], await Asked(scope));
        Assert.Equal(["tube-inner-diameter 0"], await Asked(scope));

        await Chart(Concepts.TubeInnerDiameter, 5, about: "Patient/2");
        Assert.Equal(["tube-inner-diameter 0"], await Asked(scope));
        await Chart(Concepts.TubeInnerDiameter, 7);
        Assert.Equal(["tube-inner-diameter 0", "tube-inner-diameter 7"], await Asked(scope));

        await Keep(Charted.Deletion(Ledger, "q1", "2", knownAfter: 900));
        Assert.Equal(["tube-inner-diameter 7"], await Asked(scope));
        await Keep(Charted.Linking(Ledger, "Statement/1", "1", 0, (LinkKind.UsedBy, "Device/tube", "Patient/1")));
        await Chart(Concepts.DeviceKind, 8, about: "Device/tube");
        Assert.Equal(["device-kind 8", "tube-inner-diameter 7"], (await Asked(scope)).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        await Chart(Concepts.DeviceKind, 9, about: "Device/tube");
        Assert.Equal(["device-kind 8", "device-kind 9", "tube-inner-diameter 7"], (await Asked(scope)).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_question_loads_what_it_needs_always_whenever_it_was_charted_and_nothing_it_does_not_name()
    {
        await Chart(Concepts.TubeInnerDiameter, 0);
        await Chart(Concepts.TubeInnerDiameter, 500);
        await Chart(Concepts.BirthDate, 7, timeless: true);
        await Chart(Concepts.Spo2, 70);
        await Chart(Concepts.CatheterSize, 70);
        await Chart(Concepts.TubeInnerDiameter, 3, about: "Patient/2");

        Assert.Equal(["tube-inner-diameter 0", "tube-inner-diameter 500", "birth-date 7"], await Asked(HalfHour));
        Assert.Empty(await Asked(HalfHour, patient: "Patient/3"));
        Assert.Empty(await Asked(new QuestionScope([], [], TimeRange.All)));
    }

    [Fact]
    public async Task Of_what_was_charted_of_the_patient_before_since_the_latest_that_stands_counts_with_what_reaches_beyond()
    {
        await Chart(Concepts.TubeInnerDiameter, 0);
        await Chart(Concepts.TubeInnerDiameter, 5, 70);
        await Chart(Concepts.TubeInnerDiameter, 10);
        await Chart(Concepts.TubeInnerDiameter, 10);
        await Keep(new ReadArrival(Charted.Resource("Observation", "q3", "2", 90, "{}"), new Reading { Self = Ledger.Intern("Observation/q3") }));
        await Chart(Concepts.TubeInnerDiameter, 60);
        await Chart(Concepts.TubeInnerDiameter, 1, about: "Patient/2");

        Assert.Equal(["tube-inner-diameter 5", "tube-inner-diameter 10", "tube-inner-diameter 60"], await Asked(HalfHour with { Since = Charted.Minutes(50) }));
        Assert.Equal(["tube-inner-diameter 0", "tube-inner-diameter 5", "tube-inner-diameter 10", "tube-inner-diameter 60"], await Asked(HalfHour));
    }

    [Fact]
    public async Task Of_what_is_needed_recently_a_question_loads_what_lies_in_its_window_reaches_into_it_or_is_timeless()
    {
        await Chart(Concepts.VacuumPressure, 59);
        await Chart(Concepts.VacuumPressure, 60);
        await Chart(Concepts.VacuumPressure, 90);
        await Chart(Concepts.VacuumPressure, 91);
        await Chart(Concepts.SuctionPass, 10, 59);
        await Chart(Concepts.SuctionPass, 11, 60);
        await Chart(Concepts.SuctionPass, 61, 200);
        await Chart(Concepts.SuctionPass, 12, 200);
        await Chart(Concepts.SuctionPass, 91, 200);
        await Chart(Concepts.VacuumPressure, 5, timeless: true);

        Assert.Equal(
            ["suction-pass 11", "suction-pass 12", "suction-pass 61", "vacuum-pressure 5", "vacuum-pressure 60", "vacuum-pressure 90"], await Asked(HalfHour));
        Assert.Equal(
            ["suction-pass 10", "suction-pass 11", "suction-pass 12", "suction-pass 61", "vacuum-pressure 5", "vacuum-pressure 59", "vacuum-pressure 60", "vacuum-pressure 90"],
            await Asked(HalfHour with { Window = HalfHour.Window with { From = long.MinValue } }));
        Assert.Equal(10, (await Asked(HalfHour with { Window = TimeRange.All })).Count);
    }

    [Fact]
    public async Task A_concept_that_is_needed_always_and_recently_is_loaded_once()
    {
        await Chart(Concepts.VacuumPressure, 0);
        await Chart(Concepts.VacuumPressure, 70);
        ImmutableArray<Concept> both = [Concepts.VacuumPressure, Concepts.VacuumPressure];

        Assert.Equal(["vacuum-pressure 0", "vacuum-pressure 70"], await Asked(HalfHour with { Always = both, Recent = both }));
        Assert.Equal(["vacuum-pressure 0", "vacuum-pressure 70"], await Asked(HalfHour with { Always = both, Recent = both, Window = TimeRange.All }));
    }

    [Fact]
    public async Task A_question_is_asked_of_the_chart_as_known_at_a_position()
    {
        var first = await KeepOne(Charted.Vacuum(Ledger, "1", "1", "Patient/1", 120, at: 70));
        var second = await KeepOne(Charted.Vacuum(Ledger, "1", "2", "Patient/1", 130, knownAfter: 1, at: 70));
        var third = await KeepOne(Charted.Deletion(Ledger, "1", "3", knownAfter: 2));

        Assert.Equal(["vacuum-pressure 120"], await Asked(HalfHour, first));
        Assert.Equal(["vacuum-pressure 130"], await Asked(HalfHour, second));
        Assert.Empty(await Asked(HalfHour, third));
        Assert.Empty(await Asked(HalfHour));
        Assert.Empty(await Asked(HalfHour, new Position(first.Value - 1)));
    }

    [Fact]
    public async Task A_question_reaches_what_stands_at_the_bed_and_what_is_in_use_and_nothing_through_acts_orders_or_rows()
    {
        await Keep(
            Charted.Linking(Ledger, "Encounter/1", "1", 0, (LinkKind.EncounterOf, "Encounter/1", "Patient/1"), (LinkKind.TakesPlaceAt, "Encounter/1", "Location/bed")),
            Charted.Linking(Ledger, "Device/at-bed", "1", 0, (LinkKind.StandsAt, "Device/at-bed", "Location/bed")),
            Charted.Linking(Ledger, "DeviceMetric/of-it", "1", 0, (LinkKind.MetricOf, "DeviceMetric/of-it", "Device/at-bed")),
            Charted.Linking(Ledger, "DeviceUseStatement/1", "1", 0, (LinkKind.UsedBy, "Device/tube", "Patient/1")),
            Charted.Linking(Ledger, "Procedure/1", "1", 0, (LinkKind.DoneTo, "Procedure/1", "Patient/1"), (LinkKind.Uses, "Procedure/1", "Device/of-act")),
            Charted.Linking(Ledger, "ServiceRequest/1", "1", 0, (LinkKind.OrderFor, "ServiceRequest/1", "Patient/1")),
            Charted.Linking(Ledger, "Observation/1", "1", 0, (LinkKind.PanelOf, "Observation/1", "Patient/1"), (LinkKind.FocusOn, "Observation/1", "Device/at-bed")),
            Charted.Linking(Ledger, "Encounter/2", "1", 0, (LinkKind.EncounterOf, "Encounter/2", "Patient/2"), (LinkKind.TakesPlaceAt, "Encounter/2", "Location/bed")));
        foreach (var (about, number) in new[] { ("Device/at-bed", 1), ("DeviceMetric/of-it", 2), ("Device/tube", 3), ("Device/of-act", 4), ("Patient/2", 5), ("ServiceRequest/1", 6), ("Location/bed", 7) })
        {
            await Chart(Concepts.DeviceKind, number, about: about);
        }

        Assert.Equal(["1", "2", "3", "7"], (await Asked(HalfHour)).Select(told => told.Split(' ')[1]).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Equal(
            [
                "EncounterOf Encounter/1 Patient/1", "TakesPlaceAt Encounter/1 Location/bed", "StandsAt Device/at-bed Location/bed", "MetricOf DeviceMetric/of-it Device/at-bed",
                "UsedBy Device/tube Patient/1", "EncounterOf Encounter/2 Patient/2", "TakesPlaceAt Encounter/2 Location/bed",
            ],
            await AskedLinks(HalfHour));
    }

    [Fact]
    public async Task Of_devices_that_readings_name_a_question_has_what_was_said_in_its_window_and_else_what_was_said_last()
    {
        foreach (var (device, at) in new[] { ("in", 60), ("in", 10), ("in", 90), ("before", 20), ("before", 40), ("before", 30), ("after", 91), ("after", 120) })
        {
            await Name("Patient/1", device, at);
        }

        await Name("Patient/1", "in", 60, ticks: -1);
        await Name("Patient/2", "in", 70);
        await Name("Patient/2", "in", 10);
        await Chart(Concepts.DeviceKind, 1, about: "Device/before");
        await Chart(Concepts.DeviceKind, 2, about: "Device/after");

        Assert.Equal(["device-kind 1", "device-kind 2"], await Asked(HalfHour));
        Assert.Equal(["in 60 1", "in 90 1", "before 40 1", "after 120 1", "in 70 2"], await NamedIn(HalfHour));
        Assert.Equal(["in 60 1", "in 10 1", "in 90 1", "before 20 1", "before 40 1", "before 30 1", "after 91 1", "after 120 1", "in 59.999 1", "in 70 2", "in 10 2"], await NamedIn(HalfHour with { Window = TimeRange.All }));
    }

    // For one tick, so that it ends where the next begins.
    private async ValueTask Name(string patient, string device, int at, int ticks = 0)
    {
        var arrival = Charted.Linking(Ledger, $"Observation/n{++_charted}", "1", 0, (LinkKind.NamedWith, $"Device/{device}", patient));
        arrival.Reading.Links[0] = arrival.Reading.Links[0] with { FromTime = Charted.Minutes(at) + ticks, ToTime = Charted.Minutes(at) + ticks + 1 };
        await Keep(arrival);
    }

    private async ValueTask<IReadOnlyList<string>> NamedIn(QuestionScope scope)
    {
        using var lease = await Ledger.LoadAsync(Ledger.Intern("Patient/1"), scope, FarAhead, Stop);
        var told = new List<string>();
        foreach (ref readonly var link in lease.View.Links)
        {
            told.Add($"{Ledger.NameOf(link.From)["Device/".Length..]} {MinutesOf(link.FromTime)} {Ledger.NameOf(link.To)["Patient/".Length..]}");
        }

        return told;
    }

    private static string MinutesOf(long ticks) =>
        (Math.Truncate(new TimeSpan(ticks - Charted.Minutes(0)).TotalMinutes * 1000) / 1000).ToString(CultureInfo.InvariantCulture);
}
