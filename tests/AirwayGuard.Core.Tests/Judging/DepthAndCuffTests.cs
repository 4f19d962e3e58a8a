using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>inserted-too-deep, safe-depth-not-on-file, deep-technique-without-reason, closed-catheter-change-overdue, cuff-pressure-out-of-range.</summary>
public sealed class DepthAndCuffTests
{
    private const string Deep = "inserted-too-deep", Safe = "safe-depth-not-on-file", Technique = "deep-technique-without-reason";
    private const string Closed = "closed-catheter-change-overdue", Cuff = "cuff-pressure-out-of-range";
    private static readonly (int Year, int Month) Neonate = (2026, 2), Infant = (2025, 9), Child = (2019, 2), Adult = (1961, 2);

    // Tube 20 cm, adapter 3 cm.
    [Theory]
    [InlineData("neonate", 23.0, false)]
    [InlineData("neonate", 23.1, true)]
    [InlineData("infant", 23.0, false)]
    [InlineData("infant", 23.1, true)]
    [InlineData("child", 23.5, false)]
    [InlineData("child", 23.6, true)]
    [InlineData("adult", 24.0, false)]
    [InlineData("adult", 24.1, true)]
    public void Depth_is_held_against_tube_and_adapter(string band, double depth, bool breaches)
    {
        foreach (var rules in (string[])["strict-ranges", "guideline-2022"])
        {
            var found = Lengths(Born(band), 20, 3).Row("s", "10:00", null, null, null, null, null, To(depth)).Judge(rules);
            Assert.Equal(breaches ? [(decimal?)((decimal)depth - 23m)] : [], Of(found, Deep).Select(one => one.Latest.Value));
            Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Deep);
        }
    }

    [Theory]
    [InlineData(21.0, false)] // whatever the adapter takes, it did not go beyond 1 cm
    [InlineData(21.1, true)]
    [InlineData(40.0, true)]
    public void Without_the_adapters_length_only_what_is_within_it_passes(double depth, bool cannotTell)
    {
        var found = Lengths(Adult, 20, null).Row("s", "10:00", null, null, null, null, null, To(depth)).Judge();

        Assert.Empty(Of(found, Deep));
        Assert.Equal(cannotTell ? [Missing.AdapterLength] : [], found.CannotTell.Where(one => one.Rule.Id == Deep).SelectMany(one => one.Missing));
    }

    [Fact]
    public void Without_the_tubes_length_nobody_can_tell() => Assert.Equal(
        [Missing.TubeLength],
        Chart(Adult).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre)).Row("d", Concepts.AdapterLength, "08:00", Number(3, Unit.Centimetre))
            .Row("s", "10:00", null, null, null, null, null, To(10)).Judge().CannotTell.Single(one => one.Rule.Id == Deep).Missing);

    [Fact]
    public void Lengths_go_with_their_tube()
    {
        var chart = Lengths(Adult, 20, 3).Row("t2", Concepts.TubeInnerDiameter, "12:00", Number(7, Unit.Millimetre)).Row("s", "13:00", null, null, null, null, null, To(30));
        Assert.Contains(chart.Judge().CannotTell, one => one.Rule.Id == Deep && one.Missing is [Missing.TubeLength]);

        // Charted after the pass it says nothing of it.
        Assert.Empty(Of(chart.Row("l2", Concepts.TubeLength, "14:00", Number(18, Unit.Centimetre)).Judge(), Deep));
    }

    [Fact]
    public void Lengths_of_the_tubes_own_device_count_in_either_unit()
    {
        var found = Chart(Adult).Device("ett", "tracheal-tube", (Concepts.TubeLength, Number(200, Unit.Millimetre)), (Concepts.AdapterLength, Number(3, Unit.Centimetre)))
            .InUse("u", "ett", "08:00").Row("s", "10:00", null, null, null, null, null, To(24.5)).Judge();

        Assert.Equal(1.5m, Assert.Single(Of(found, Deep)).Latest.Value);
        Assert.Empty(Of(found, Safe));
    }

    [Fact]
    public void A_sites_limit_in_millimetres_is_compared_as_such()
    {
        var rules = SiteRules.Strict(Deep, "limit: 1 cm", "limit: 5 mm");

        Assert.Equal(6m, Assert.Single(Of(Lengths(Adult, 20, 3).Row("s", "10:00", null, null, null, null, null, To(23.6)).Judge(rules), Deep)).Latest.Value);
        Assert.Empty(Of(Lengths(Adult, 20, 3).Row("s", "10:00", null, null, null, null, null, To(23.5)).Judge(rules), Deep));
    }

    [Theory]
    [InlineData(Comparator.Exactly, true)]
    [InlineData(Comparator.AtMost, true)]
    [InlineData(Comparator.Below, true)]
    public void An_ordered_depth_is_what_the_order_allows_up_to(Comparator comparator, bool breaches)
    {
        var found = Lengths(Adult, 20, 3).Order("o", "09:00", "active", (Concepts.InsertionDepth, Number(25, Unit.Centimetre, comparator))).Judge();

        Assert.Equal(breaches, Of(found, Deep).Any());
    }

    [Theory]
    [InlineData(Comparator.Above, 24, "breach")]
    [InlineData(Comparator.Below, 24, "pass")]
    [InlineData(Comparator.Below, 30, "cannot tell")]
    [InlineData(Comparator.Above, 20, "cannot tell")]
    public void A_charted_depth_with_a_comparator_is_judged_where_that_settles_it(Comparator comparator, int depth, string expected)
    {
        var found = Lengths(Adult, 20, 3).Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.InsertionDepth, Number(depth, Unit.Centimetre, comparator))).Judge();

        Assert.Equal(expected, Of(found, Deep).Any() ? "breach" : found.CannotTell.Any(one => one.Rule.Id == Deep) ? "cannot tell" : "pass");
    }

    [Fact]
    public void Without_an_age_depth_cannot_tell_or_is_held_to_the_strictest_band()
    {
        var chart = new ChartBuilder().Row("t", "08:00", null, null, null, null, null, Tube(20, 3)).Row("s", "10:00", null, null, null, null, null, To(23.1));

        var found = chart.Judge();
        Assert.Empty(Of(found, Deep));
        Assert.Equal([Missing.BirthDate], found.CannotTell.Single(one => one.Rule.Id == Deep).Missing);
        var strictest = Assert.Single(Of(chart.Judge(unknownAge: UnknownAge.StrictestBand), Deep)).Latest;
        Assert.Equal((AgeBand.Unknown, 0m), (strictest.Band, strictest.Limit.Low));
    }

    [Fact]
    public void A_mark_at_the_lips_is_no_insertion_depth() => Assert.Empty(Of(
        Lengths(Adult, 20, 3).Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.TubeDepth, Number(40, Unit.Centimetre))).Judge(), Deep));

    [Theory]
    [InlineData(null, null, "open")]
    [InlineData("08:30", null, "open")]
    [InlineData("08:30", "09:00", "none")]
    [InlineData("08:30", "13:00", "cleared")]
    [InlineData("12:00", "13:00", "cleared")]
    public void A_safe_depth_needs_both_lengths(string? tubeAt, string? adapterAt, string expected)
    {
        var chart = Chart(Adult).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre)).Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent);
        _ = tubeAt is null ? chart : chart.Row("l", Concepts.TubeLength, tubeAt, Number(20, Unit.Centimetre));
        _ = adapterAt is null ? chart : chart.Row("d", Concepts.AdapterLength, adapterAt, Number(0, Unit.Centimetre));

        var finding = Of(chart.Judge(), Safe).SingleOrDefault();
        Assert.Equal(expected, finding is null ? "none" : finding.State == FindingState.Open ? "open" : "cleared");
        Assert.Equal(expected == "cleared" ? At("13:00") : 0, finding?.EndedAt ?? 0);
    }

    [Fact]
    public void A_safe_depth_is_asked_for_from_the_first_pass_on_and_not_for_an_order_alone()
    {
        var chart = Chart(Adult).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre)).Order("o", "09:00", "active", (Concepts.CatheterSize, Number(12, Unit.French)));
        Assert.Empty(Of(chart.Judge(), Safe));

        chart.Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent);
        Assert.Empty(Of(chart.Judge(asOf: "11:59"), Safe));
        var finding = Assert.Single(Of(chart.Judge(asOf: "12:00"), Safe));
        Assert.Equal((At("10:00"), Mode.Silent), (finding.First.At, finding.Rule.Mode));
    }

    [Theory]
    [InlineData("neonate", true)]
    [InlineData("infant", true)]
    [InlineData("child", true)]
    [InlineData("adult", false)]
    public void Deep_suction_asks_for_a_reason_below_18_years(string band, bool breaches)
    {
        foreach (var rules in (string[])["strict-ranges", "guideline-2022"])
        {
            Assert.Equal(breaches, Of(DeepPass(Born(band)).Judge(rules), Technique).Any());
        }
    }

    [Theory]
    [InlineData("shallow-ineffective")]
    [InlineData("thick-secretions")]
    [InlineData("suspected-obstruction")]
    [InlineData("emergency")]
    [InlineData("lung-injury")]
    [InlineData("raised-intracranial-pressure")]
    [InlineData("bleeding-risk")]
    [InlineData("order-specific")]
    [InlineData("other-with-text")]
    public void Any_charted_reason_lets_deep_suction_pass(string reason) =>
        Assert.Empty(Of(DeepPass(Child, (Concepts.AllowanceReason, Answer(reason))).Judge(), Technique));

    [Theory]
    [InlineData("2 10:00", FindingState.Cleared)]
    [InlineData("2 10:01", FindingState.Open)]
    public void A_reason_charted_within_a_day_ends_it(string at, FindingState state) => Assert.Equal(
        state, Assert.Single(Of(DeepPass(Child).Row("r", Concepts.AllowanceReason, at, Answer("shallow-ineffective")).Judge(), Technique)).State);

    [Fact]
    public void Thick_secretions_charted_with_it_are_a_reason() =>
        Assert.Empty(Of(DeepPass(Child, (Concepts.SecretionConsistency, Answer("thick"))).Judge(), Technique));

    [Fact]
    public void A_technique_charted_with_one_pass_holds_for_its_session()
    {
        var found = DeepPass(Child).Row("s2", Concepts.SuctionPass, "10:03", FactValue.Absent).Row("s3", "10:06", null, null, null, null, null, Technically("shallow")).Row("s4", Concepts.SuctionPass, "12:00", FactValue.Absent).Judge();

        Assert.Equal([At("10:00"), At("10:03")], Of(found, Technique).Select(one => one.First.At));
    }

    [Fact]
    public void Deep_suction_ordered_asks_for_a_reason_on_the_order()
    {
        Assert.Single(Of(Chart(Child).Order("o", "09:00", "active", (Concepts.DepthTechnique, Answer("deep"))).Judge(), Technique));
        Assert.Empty(Of(Chart(Child).Order("o", "09:00", "active", (Concepts.DepthTechnique, Answer("deep")), (Concepts.AllowanceReason, Answer("shallow-ineffective"))).Judge(), Technique));
        Assert.Empty(Of(Chart(Child).Order("o", "09:00", "active", (Concepts.DepthTechnique, Answer("shallow"))).Judge(), Technique));
    }

    [Fact]
    public void Deep_suction_without_an_age_cannot_tell() =>
        Assert.Contains(new ChartBuilder().Row("s", "10:00", null, null, null, null, null, Technically("deep")).Judge().CannotTell, one => one.Rule.Id == Technique && one.Missing is [Missing.BirthDate]);

    [Fact]
    public void A_closed_catheter_is_due_only_where_a_site_says_when()
    {
        var chart = ClosedCatheter();
        Assert.Empty(Of(chart.Judge(), Closed));

        var due = Assert.Single(Of(chart.Judge(EveryDay), Closed));
        Assert.Equal((At("2 10:00"), FindingState.Open), (due.First.At, due.State));
        Assert.Equal(chart.Entities.Intern(EntityKind.Row, "Observation/t"), due.LineEntity);
        Assert.Empty(Of(chart.Judge(EveryDay, asOf: "2 10:00"), Closed));
    }

    [Theory]
    [InlineData("2 10:00", false)] // changed as it fell due
    [InlineData("2 10:01", true)]
    public void Another_closed_catheter_begins_anew(string changed, bool isOverdue)
    {
        var chart = ClosedCatheter().Device("c2", "closed-suction-catheter").Procedure("p2", changed, null, ["c2"]);

        var found = Of(chart.Judge(EveryDay), Closed).Select(one => (one.First.At, one.State, one.EndedAt)).ToList();
        Assert.Equal(isOverdue ? [(At("2 10:00"), FindingState.Cleared, At(changed))] : [], found[..^1]);
        Assert.Equal((At(changed) + TimeSpan.TicksPerDay, FindingState.Open, 0L), found[^1]);
    }

    [Fact]
    public void A_closed_catheters_time_goes_on_in_another_tube_and_ends_with_its_use()
    {
        var exchanged = ClosedCatheter().Row("t2", Concepts.TubeInnerDiameter, "1 20:00", Number(7, Unit.Millimetre)).Judge(EveryDay);
        Assert.Equal(At("2 10:00"), Assert.Single(Of(exchanged, Closed)).First.At);

        var ended = Tubed().Device("c1", "closed-suction-catheter").InUse("u", "c1", "10:00", "2 09:00").Judge(EveryDay);
        Assert.Empty(Of(ended, Closed));
    }

    // Its first pass, its first record of use, and a later record each say when it came into use: the first of them counts.
    [Fact]
    public void A_closed_catheter_recorded_in_use_twice_is_as_old_as_its_first_use()
    {
        var twice = Tubed().Device("c1", "closed-suction-catheter").InUse("u1", "c1", "10:00", "12:00").InUse("u2", "c1", "20:00").Judge(EveryDay);

        Assert.Equal(At("2 10:00"), Assert.Single(Of(twice, Closed)).First.At);
    }

    [Fact]
    public void Closed_suction_whose_catheter_nobody_names_cannot_tell() => Assert.Contains(
        Tubed().Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.SuctionSystem, Answer("closed"))).Judge(EveryDay).CannotTell,
        one => one.Rule.Id == Closed && one.Missing is [Missing.ClosedCatheter]);

    // 20 cmH2O is 14.711 mmHg, 30 is 22.067; half a cmH2O of conversion is forgiven.
    [Theory]
    [InlineData(20, "cm[H2O]", false)]
    [InlineData(19.9, "cm[H2O]", true)]
    [InlineData(30, "cm[H2O]", false)]
    [InlineData(30.1, "cm[H2O]", true)]
    [InlineData(14.4, "mm[Hg]", false)] // 19.58
    [InlineData(14.3, "mm[Hg]", true)] // 19.44
    [InlineData(22.4, "mm[Hg]", false)] // 30.45
    [InlineData(22.5, "mm[Hg]", true)] // 30.59
    [InlineData(25, "mm[Hg]", true)] // 33.99: the same digits lie inside in cmH2O
    public void A_cuff_pressure_is_held_to_20_to_30(double amount, string unit, bool breaches)
    {
        foreach (var rules in (string[])["strict-ranges", "guideline-2022"])
        {
            var found = Tubed().Row("c", Concepts.CuffPressure, "10:00", Number((decimal)amount, Units.FromUcum(unit))).Judge(rules);
            Assert.Equal(breaches ? [Severity.Moderate] : [], Of(found, Cuff).Select(one => one.Latest.Severity));
        }
    }

    [Theory]
    [InlineData("neonate", false)]
    [InlineData("infant", false)]
    [InlineData("child", true)]
    public void Cuff_pressure_is_judged_from_the_first_birthday_on(string band, bool breaches)
    {
        var (year, month) = Born(band);
        var found = new ChartBuilder().Born(year, month, 20).Row("c", Concepts.CuffPressure, "10:00", Number(35, Unit.CmH2O)).Judge();
        Assert.Equal(breaches, Of(found, Cuff).Any());
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Cuff);
    }

    [Fact]
    public void A_cuff_finding_stands_on_its_tube_and_clears_with_a_reading_inside()
    {
        var chart = Tubed().Row("c1", Concepts.CuffPressure, "10:00", Number(35, Unit.CmH2O)).Row("c2", Concepts.CuffPressure, "11:00", Number(36, Unit.CmH2O)).Row("c3", Concepts.CuffPressure, "12:00", Number(25, Unit.CmH2O));

        var cuff = Assert.Single(Of(chart.Judge(), Cuff));
        Assert.Equal((2, FindingState.Cleared, At("12:00")), (cuff.Occurrences.Length, cuff.State, cuff.EndedAt));
        Assert.Equal(chart.Entities.Intern(EntityKind.Row, "Observation/t"), cuff.LineEntity);
    }

    [Fact]
    public void A_cuff_pressure_is_no_vacuum_and_a_vacuum_no_cuff_pressure()
    {
        var cuff = Tubed().Row("c", Concepts.CuffPressure, "10:00", Number(250, Unit.MmHg)).Judge();
        Assert.Equal([Cuff], cuff.Findings.Select(one => one.Rule.Id), StringComparer.Ordinal);

        Assert.Empty(Of(Tubed().Row("v", Concepts.VacuumPressure, "10:00", Number(100, Unit.MmHg)).Judge(), Cuff));
    }

    [Fact]
    public void A_cuff_pressure_without_an_age_cannot_tell_or_is_held_to_the_strictest_band()
    {
        var chart = new ChartBuilder().Row("c", Concepts.CuffPressure, "10:00", Number(35, Unit.CmH2O));

        Assert.Empty(Of(chart.Judge(), Cuff));
        Assert.Contains(chart.Judge().CannotTell, one => one.Rule.Id == Cuff && one.Missing is [Missing.BirthDate]);
        Assert.Equal(AgeBand.Unknown, Assert.Single(Of(chart.Judge(unknownAge: UnknownAge.StrictestBand), Cuff)).Latest.Band);
    }

    [Fact]
    public void An_ordered_depth_without_adapter_length_cannot_be_told()
    {
        var found = Chart(Adult).Row("t", "08:00", null, null, null, null, null, (Concepts.TubeInnerDiameter, Number(8, Unit.Millimetre)), (Concepts.TubeLength, Number(20, Unit.Centimetre)))
            .Order("o", "09:00", "active", (Concepts.InsertionDepth, Number(23, Unit.Centimetre))).Judge();

        Assert.Empty(Of(found, "inserted-too-deep"));
        Assert.Contains(found.CannotTell, one => one.Rule.Id == "inserted-too-deep" && one.Missing.Contains(Missing.AdapterLength));
    }

    private static RuleSet EveryDay => SiteRules.Strict(Closed, "all: site-sets", "all: { limit: 24 h, source: common-practice, status: common-practice }");

    private static (int Year, int Month) Born(string band) => band switch
    {
        "neonate" => Neonate,
        "infant" => Infant,
        "child" => Child,
        _ => Adult,
    };

    private static (Concept, FactValue)[] To(double depth) => [(Concepts.SuctionPass, FactValue.Absent), (Concepts.InsertionDepth, Number((decimal)depth, Unit.Centimetre))];

    private static (Concept, FactValue)[] Technically(string technique) => [(Concepts.SuctionPass, FactValue.Absent), (Concepts.DepthTechnique, Answer(technique))];

    private static (Concept, FactValue)[] Tube(int tube, int? adapter) => adapter is { } length
        ? [(Concepts.TubeInnerDiameter, Number(8, Unit.Millimetre)), (Concepts.TubeLength, Number(tube, Unit.Centimetre)), (Concepts.AdapterLength, Number(length, Unit.Centimetre))]
        : [(Concepts.TubeInnerDiameter, Number(8, Unit.Millimetre)), (Concepts.TubeLength, Number(tube, Unit.Centimetre))];

    private static IEnumerable<DerivedFinding> Of(DerivedFindings found, string check) => found.Findings.Where(one => one.Rule.Id == check).OrderBy(one => one.First.At);

    private static ChartBuilder DeepPass((int Year, int Month) born, params (Concept, FactValue)[] more) =>
        Chart(born).Row("s", "10:00", null, null, null, null, null, [.. Technically("deep"), .. more]);

    private static ChartBuilder ClosedCatheter() => Tubed().Device("c1", "closed-suction-catheter").Procedure("p1", "10:00", null, ["c1"]).Procedure("p1b", "15:00", null, ["c1"]);

    private static ChartBuilder Tubed() => Chart(Adult).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre));

    private static ChartBuilder Lengths((int Year, int Month) born, int tube, int? adapter) => Chart(born).Row("t", "08:00", null, null, null, null, null, Tube(tube, adapter));

    private static ChartBuilder Chart((int Year, int Month) born) => new ChartBuilder().Born(born.Year, born.Month, 20);
}
