using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>More of what engine and reference judge once read differently, each mended by what docs/meanings.md says.</summary>
public sealed class ReconciledWordsTests
{
    // "Clearing a vacuum spell: a later reading": at the same instant nothing is cleared.
    [Fact]
    public void A_compliant_reading_at_the_instant_of_the_breach_clears_nothing() =>
        Assert.Equal(FindingState.Open, Of("vacuum-above-ceiling", Adult().Row("a", Concepts.VacuumPressure, "09:00", Mm(220)).Row("b", Concepts.VacuumPressure, "09:00", Mm(120)))!.State);

    // The same whichever row came first or sorts first.
    [Fact]
    public void Which_of_two_rows_of_an_instant_is_named_first_does_not_matter() =>
        Assert.Equal(FindingState.Open, Of("vacuum-above-ceiling", Adult().Row("b", Concepts.VacuumPressure, "09:00", Mm(220)).Row("a", Concepts.VacuumPressure, "09:00", Mm(120)))!.State);

    // pre-oxygenation charted apart as not given, just before a pass, is a denial: another pass of the session does not lend its own.
    [Fact]
    public void A_denied_preoxygenation_is_not_covered_by_an_earlier_pass_of_the_session()
    {
        var found = Adult().Row("s1", "10:00", "10:00:10", null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.Preoxygenation, FactValue.Yes))
            .Row("no", Concepts.Preoxygenation, "10:02:50", FactValue.No).Row("s2", Concepts.SuctionPass, "10:03", FactValue.Absent, to: "10:03:10").Judge();

        Assert.Equal(At("10:03"), Assert.Single(found.Findings, one => one.Rule.Id == "preoxygenation-missing").Latest.At);
    }

    // "pre-oxygenation before the first pass, charted with one pass of a session, hold for its other passes"
    [Fact]
    public void A_preoxygenation_before_the_first_pass_holds_for_the_next() =>
        Assert.Null(Of("preoxygenation-missing", Adult().Row("s1", "10:00", "10:00:10", null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.Preoxygenation, FactValue.Yes))
            .Row("s2", Concepts.SuctionPass, "10:03", FactValue.Absent, to: "10:03:10")));

    // "0: off, not judged": nobody doubts the unit of a gauge at 0 on a regulator that is off.
    [Fact]
    public void The_unit_of_a_gauge_at_0_on_a_regulator_that_is_off_is_not_judged()
    {
        var zero = FactValue.Number(0, 0, Unit.None);

        Assert.Null(Of("vacuum-unit-doubtful", Adult().Row("m", Concepts.RegulatorMode, "08:55", Answer("off")).Row("v", Concepts.VacuumPressure, "09:00", zero)));
        Assert.NotNull(Of("vacuum-unit-doubtful", Adult().Row("m", Concepts.RegulatorMode, "08:55", Answer("regulated")).Row("v", Concepts.VacuumPressure, "09:00", zero)));
    }

    // "none ends the airway": at the instant of another type the new tube is in use.
    [Theory]
    [InlineData("a", "b")]
    [InlineData("b", "a")]
    public void A_tube_charted_at_the_instant_of_none_is_in_use(string none, string tube) =>
        Assert.NotNull(Of("catheter-too-wide", Adult().Row(none, Concepts.AirwayType, "09:00", Answer("none")).Row(tube, "09:00", null, null, null, null, null,
            (Concepts.AirwayType, Answer("tracheal-tube")), (Concepts.TubeInnerDiameter, Number(7, Unit.Millimetre))).Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Fr(14)))));

    // "or the encounter's end": of two that were running, the last.
    [Fact]
    public void A_tube_charted_in_two_running_encounters_is_in_use_until_the_later_ends()
    {
        var chart = Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(7, Unit.Millimetre)).Encounter("short", "07:00", "09:00").Encounter("long", "07:00", "18:00");

        Assert.NotNull(Of("catheter-too-wide", chart.Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Fr(14)))));
    }

    // an age is needed only where limits differ; their sources may.
    [Fact]
    public void One_limit_for_all_bands_needs_no_age_whatever_its_sources() =>
        Assert.NotNull(Of("suction-ordered-by-clock", new ChartBuilder().Order("o", "09:00", "active", (Concepts.OrderByClock, FactValue.Yes))));

    // rows that make a pass anchor it; another member of the column may name it in keys.
    [Fact]
    public void A_pass_made_from_loose_rows_is_anchored_by_a_row_that_makes_it()
    {
        var finding = Of("pass-too-long", Adult().Row("a-heart", Concepts.HeartRate, "09:00", Number(80, Unit.PerMinute)).Row("z-long", Concepts.PassDuration, "09:00", Number(25, Unit.Second)), out var names)!;

        Assert.Equal("Observation/z-long", names.NameOf(Assert.Single(finding.Latest.Anchors).Row));
    }

    // "in place without one: tube-diameter-unknown, ratio cannot-tell"
    [Fact]
    public void A_cannula_in_use_without_a_size_leaves_the_ratio_open()
    {
        var found = Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(7, Unit.Millimetre)).Device("ic", "inner-cannula").InUse("u", "ic", "08:00")
            .Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Fr(14))).Judge();

        Assert.Contains(found.CannotTell, one => one.Rule.Id == "catheter-too-wide");
        Assert.DoesNotContain(found.Findings, one => one.Rule.Id == "catheter-too-wide");
    }

    // "false, 0 or the end of its use ends it"
    [Fact]
    public void A_cannula_diameter_of_0_ends_it()
    {
        var chart = Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(9, Unit.Millimetre)).Row("c", Concepts.InnerCannulaDiameter, "08:30", Number(6, Unit.Millimetre));

        Assert.NotNull(Of("catheter-too-wide", chart.Row("s", "09:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Fr(12)))));
        Assert.Equal(
            At("09:00"),
            Of("catheter-too-wide", chart.Row("c0", Concepts.InnerCannulaDiameter, "09:30", Number(0, Unit.Millimetre))
                .Row("s2", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Fr(12))))!.Latest.At);
    }

    private static ChartBuilder Adult() => new ChartBuilder().Born(1961, 5, 4);

    private static FactValue Mm(int value) => Number(value, Unit.MmHg);

    private static FactValue Fr(int value) => Number(value, Unit.French);

    private static DerivedFinding? Of(string check, ChartBuilder chart) => chart.Judge().Findings.SingleOrDefault(one => one.Rule.Id == check);

    private static DerivedFinding? Of(string check, ChartBuilder chart, out EntityTable names)
    {
        names = chart.Entities;
        return Of(check, chart);
    }
}
