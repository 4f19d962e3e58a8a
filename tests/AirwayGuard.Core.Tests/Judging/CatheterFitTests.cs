using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>catheter-does-not-fit, what it withholds, catheter-narrower-than-useful, tube-changed-since-catheter-chosen, tube-diameter-unknown.</summary>
public sealed class CatheterFitTests
{
    private const string NoFit = "catheter-does-not-fit", Wide = "catheter-too-wide", Narrow = "catheter-narrower-than-useful";
    private const string Changed = "tube-changed-since-catheter-chosen", Unknown = "tube-diameter-unknown";

    // 15 Fr is 5 mm.
    [Theory]
    [InlineData("strict-ranges", 1961, 15, 5.0, true)]
    [InlineData("guideline-2022", 1961, 15, 5.0, true)]
    [InlineData("strict-ranges", 2026, 14, 5.0, false)]
    [InlineData("strict-ranges", 2026, 8, 2.5, true)] // 106.7 %
    public void A_catheter_as_wide_as_the_bore_does_not_fit_at_any_age(string rules, int born, int french, double millimetres, bool breaches)
    {
        var found = Tube(born, (decimal)millimetres).Row("s", "10:00", null, null, null, null, null, Pass(french)).Judge(rules);

        Assert.Equal(breaches ? [Severity.High] : [], Of(found, NoFit).Select(one => one.Latest.Severity));
    }

    [Fact]
    public void A_catheter_that_does_not_fit_withholds_that_it_is_too_wide_for_the_same_pass_only()
    {
        var chart = Tube(1961, 5m).Row("s1", "10:00", null, null, null, null, null, Pass(16));
        var first = chart.Judge();
        Assert.True(Assert.Single(Of(first, Wide)).IsWithheld);
        Assert.False(Assert.Single(Of(first, NoFit)).IsWithheld);

        var wide = Assert.Single(Of(chart.Row("s2", "12:00", null, null, null, null, null, Pass(12)).Judge(), Wide));
        Assert.Equal([true, false], wide.Occurrences.Select(one => one.Withheld));
        Assert.False(wide.IsWithheld);
    }

    [Fact]
    public void A_silent_check_withholds_nothing()
    {
        var rules = SiteRules.Strict(NoFit, "mode: live", "mode: silent");

        Assert.False(Assert.Single(Of(Tube(1961, 5m).Row("s", "10:00", null, null, null, null, null, Pass(16)).Judge(rules), Wide)).IsWithheld);
    }

    [Fact]
    public void Another_pass_on_full_line_still_withholds_the_number_charted_while_it_holds()
    {
        var found = Chart(1961).Row("m", Concepts.RegulatorMode, "09:00", Answer("full-line")).Row("v", Concepts.VacuumPressure, "10:00", Number(250, Unit.MmHg)).Judge();

        Assert.True(Assert.Single(Of(found, "vacuum-above-ceiling")).IsWithheld);
    }

    [Fact]
    public void It_clears_with_a_catheter_that_passes_though_that_one_is_still_too_wide()
    {
        var found = Tube(1961, 5m).Row("s1", "10:00", null, null, null, null, null, Pass(16)).Row("c", Concepts.CatheterSize, "11:00", Number(10, Unit.French)).Judge();

        var noFit = Assert.Single(Of(found, NoFit));
        Assert.Equal((FindingState.Cleared, At("11:00")), (noFit.State, noFit.EndedAt));
        Assert.Equal(FindingState.Open, Assert.Single(Of(found, Wide)).State);
    }

    [Fact]
    public void An_ordered_catheter_is_held_against_the_tube_too()
    {
        var found = Tube(1961, 5m).Order("o", "09:00", "active", (Concepts.CatheterSize, Number(16, Unit.French))).Judge();

        Assert.Equal("ServiceRequest/o", Assert.Single(Of(found, NoFit)).First.Subject);
        Assert.True(Assert.Single(Of(found, Wide)).IsWithheld);
    }

    [Fact]
    public void Without_a_diameter_nobody_can_tell_whether_it_fits() => Assert.Equal(
        [Missing.TubeInnerDiameter],
        Chart(1961).Row("s", "10:00", null, null, null, null, null, Pass(12)).Judge().CannotTell.Single(one => one.Rule.Id == NoFit).Missing);

    // 0.33 of 10.0 mm is 9.9 Fr.
    [Theory]
    [InlineData(9.9, false)]
    [InlineData(9.8, true)]
    public void A_thin_catheter_is_named_only_below_a_third(double french, bool breaches)
    {
        foreach (var rules in (string[])["strict-ranges", "guideline-2022"])
        {
            var found = Tube(1961, 10m).Row("s", "10:00", null, null, null, null, null, [.. Pass((decimal)french), Thick]).Judge(rules);
            Assert.Equal(breaches ? [Severity.Low] : [], Of(found, Narrow).Select(one => one.Latest.Severity));
        }
    }

    [Theory]
    [InlineData("10:00", true)]
    [InlineData("10:03", false)] // another pass of the session: secretions are not among what holds for all of its passes
    [InlineData("10:20", false)]
    public void Only_thick_secretions_charted_with_the_pass_itself_count(string at, bool breaches)
    {
        var chart = Tube(1961, 9m).Row("s1", "10:00", null, null, null, null, null, Pass(8));
        var found = (at == "10:00" ? chart.Row("c", Concepts.SecretionConsistency, at, Answer("thick")) : chart.Row("s2", at, null, null, null, null, null, [.. Pass(10), Thick])).Judge();

        Assert.Equal(breaches ? [At("10:00")] : [], Of(found, Narrow).Select(one => one.First.At));
    }

    [Fact]
    public void A_thin_catheter_without_thick_secretions_is_not_judged_and_thick_ones_without_a_tube_cannot_tell()
    {
        Assert.Empty(Of(Tube(1961, 9m).Row("s", "10:00", null, null, null, null, null, [.. Pass(8), (Concepts.SecretionConsistency, Answer("thin"))]).Judge(), Narrow));
        Assert.Equal(
            [Missing.TubeInnerDiameter],
            Chart(1961).Row("s", "10:00", null, null, null, null, null, [.. Pass(8), Thick]).Judge().CannotTell.Single(one => one.Rule.Id == Narrow).Missing);
    }

    [Theory]
    [InlineData("07:59", true)]
    [InlineData("08:00", false)]
    [InlineData("09:00", false)]
    public void An_order_older_than_the_tube_that_names_a_catheter_is_named(string authored, bool breaches)
    {
        var found = Tube(1961, 8m).Order("o", authored, "active", (Concepts.CatheterSize, Number(12, Unit.French))).Judge();

        Assert.Equal(breaches ? [At(authored)] : [], Of(found, Changed).Select(one => one.First.At));
    }

    [Fact]
    public void An_order_that_names_no_catheter_outlives_any_tube() =>
        Assert.Empty(Of(Tube(1961, 8m).Order("o", "07:00", "active", (Concepts.OrderAsNeeded, FactValue.Yes)).Judge(), Changed));

    [Fact]
    public void Judged_before_the_tube_is_changed_the_order_stands_and_after_it_does_not()
    {
        var chart = Tube(1961, 8m).Order("o", "09:00", "active", (Concepts.CatheterSize, Number(12, Unit.French)))
            .Row("t2", Concepts.TubeInnerDiameter, "12:00", Number(7, Unit.Millimetre));

        Assert.Empty(Of(chart.Judge(asOf: "11:00"), Changed));
        var changed = Assert.Single(Of(chart.Judge(asOf: "12:00"), Changed));
        Assert.Equal(FindingState.Open, changed.State);
        Assert.Contains(changed.First.Evidence, item => item.Row == chart.Entities.Intern(EntityKind.Row, "Observation/t2"));
    }

    // The tube was charted when the stay was over, so no airway was ever in use for the order to fit.
    [Fact]
    public void An_ordered_catheter_is_not_held_against_a_tube_that_was_never_in_use()
    {
        var found = Chart(1961).Encounter("e", "07:00", "09:00").Order("o", "08:30", "active", (Concepts.CatheterSize, Number(10, Unit.French)))
            .Row("t", Concepts.TubeInnerDiameter, "09:10", Number(8, Unit.Millimetre)).Judge();

        Assert.Contains(found.CannotTell, one => one.Rule.Id == "catheter-too-wide" && one.Missing.Contains(Missing.TubeInnerDiameter));
    }

    [Fact]
    public void It_ends_when_the_order_is_renewed_or_ended()
    {
        var renewed = OfChangedTube().Renewal("o2", "o", "13:00", "active", (Concepts.CatheterSize, Number(10, Unit.French))).Judge();
        var changed = Assert.Single(Of(renewed, Changed));
        Assert.Equal((FindingState.Cleared, At("13:00"), "ServiceRequest/o"), (changed.State, changed.EndedAt, changed.First.Subject));

        Assert.Empty(Of(OfChangedTube("completed").Judge(), Changed));
        Assert.Empty(Of(OfChangedTube().Renewal("o2", "o", "11:00", "active").Judge(), Changed));
    }

    [Fact]
    public void With_the_tube_taken_out_and_no_other_it_ends_and_is_not_taken_back()
    {
        var changed = Assert.Single(Of(OfChangedTube().Row("out", Concepts.AirwayType, "14:00", Answer("none")).Judge(), Changed));

        Assert.Equal((FindingState.Cleared, At("14:00")), (changed.State, changed.EndedAt));
    }

    [Fact]
    public void A_cannula_without_diameter_put_in_after_the_first_pass_makes_the_diameter_unknown_until_it_is_out()
    {
        var chart = Tube(1961, 8.5m).Row("s1", "10:00", null, null, null, null, null, Pass(12))
            .Row("in", Concepts.InnerCannulaInPlace, "11:00", FactValue.Yes).Row("s2", "12:00", null, null, null, null, null, Pass(12));
        var open = Assert.Single(Of(chart.Judge(), Unknown));
        Assert.Equal((At("12:00"), FindingState.Open), (open.First.At, open.State));

        var cleared = Assert.Single(Of(chart.Row("out", Concepts.InnerCannulaInPlace, "15:00", FactValue.No).Judge(), Unknown));
        Assert.Equal((At("15:00"), FindingState.Cleared), (cleared.EndedAt, cleared.State));
    }

    [Fact]
    public void The_end_of_a_cannulas_use_ends_it_too()
    {
        var found = Tube(1961, 8.5m).Device("ic", "inner-cannula").InUse("u", "ic", "09:00", "12:30").Row("s", "10:00", null, null, null, null, null, Pass(12)).Judge();

        var unknown = Assert.Single(Of(found, Unknown));
        Assert.Equal((At("10:00"), At("12:30")), (unknown.First.At, unknown.EndedAt));
    }

    [Fact]
    public void A_size_that_is_only_a_word_is_no_diameter()
    {
        var found = Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheostomy-tube")).Row("t", Concepts.TubeInnerDiameter, "08:00", FactValue.Text)
            .Row("s", "10:00", null, null, null, null, null, Pass(12)).Judge();

        Assert.Single(Of(found, Unknown));
        Assert.Contains(found.CannotTell, one => one.Rule.Id == Wide && one.Missing is [Missing.TubeInnerDiameter]);
    }

    [Theory]
    [InlineData("11:59", 0)]
    [InlineData("12:00", 1)]
    public void A_missing_diameter_is_waited_for(string asOf, int findings) => Assert.Equal(
        findings, Of(Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Row("s", "10:00", null, null, null, null, null, Pass(12)).Judge(asOf: asOf), Unknown).Count());

    [Fact]
    public void An_airway_nobody_suctions_or_orders_a_catheter_for_needs_no_diameter()
    {
        Assert.Empty(Of(Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Judge(), Unknown));
        Assert.Single(Of(Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Order("o", "09:00", "active", (Concepts.CatheterSize, Number(12, Unit.French))).Judge(), Unknown));
    }

    private static (Concept, FactValue) Thick => (Concepts.SecretionConsistency, Answer("thick"));

    private static (Concept, FactValue)[] Pass(decimal french) => [(Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(french, Unit.French))];

    private static IEnumerable<DerivedFinding> Of(DerivedFindings found, string check) => found.Findings.Where(one => one.Rule.Id == check);

    private static ChartBuilder OfChangedTube(string status = "active") => Tube(1961, 8m)
        .Order("o", "09:00", status, (Concepts.CatheterSize, Number(12, Unit.French))).Row("t2", Concepts.TubeInnerDiameter, "12:00", Number(7, Unit.Millimetre));

    private static ChartBuilder Tube(int born, decimal millimetres) => Chart(born).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(millimetres, Unit.Millimetre));

    private static ChartBuilder Chart(int born) => new ChartBuilder().Born(born, 2, 20);

    // An order allows up to what it names: 14 Fr takes 58.3 % of 8.0 mm, 12 Fr exactly one half of it.
    [Theory]
    [InlineData("strict-ranges", 14, Comparator.AtMost, true)]
    [InlineData("strict-ranges", 14, Comparator.Below, true)]
    [InlineData("guideline-2022", 12, Comparator.AtMost, true)]
    [InlineData("guideline-2022", 12, Comparator.Below, false)]
    public void An_ordered_catheter_with_a_comparator_is_judged_as_the_number(string rules, int french, Comparator comparator, bool breaches)
    {
        var found = Tube(1961, 8m).Order("o", "09:00", "active", (Concepts.CatheterSize, Number(french, Unit.French, comparator))).Judge(rules);

        Assert.Equal(breaches, found.Findings.Any(finding => finding.Rule.Id == "catheter-too-wide"));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "catheter-too-wide");
    }
}
