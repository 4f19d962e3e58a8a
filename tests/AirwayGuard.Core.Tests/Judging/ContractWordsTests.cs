using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Meanings that engine and reference judge once read differently.</summary>
public sealed class ContractWordsTests
{
    // A new size starts another airway, so that an airway has one size, and holds it until it ends; cannula and catheter may change within it.
    [Fact]
    public void The_first_diameter_charted_of_an_airway_is_that_of_its_earlier_passes_too()
    {
        var found = Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Row("s", "09:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(16, Unit.French)))
            .Row("t", Concepts.TubeInnerDiameter, "09:30", Number(7, Unit.Millimetre)).Judge();
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "catheter-too-wide");
        Assert.Contains(found.Findings, one => one.Rule.Id == "catheter-too-wide");
    }

    // One duration beside several passes: the sum within the limit passes, a mean over it breaches, between nobody can tell.
    [Fact]
    public void A_duration_left_open_by_its_comparator_stays_open_beside_a_pass_count() =>
        Assert.Contains(Chart(1961).Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent),
            (Concepts.PassDuration, Number(20, Unit.Second, Comparator.Below)), (Concepts.PassCount, Number(3, Unit.Count))).Judge().CannotTell, one => one.Rule.Id == "pass-too-long");

    // Oxygen charted during pre-oxygenation is no baseline: during one without an end neither.
    [Fact]
    public void Oxygen_charted_at_the_instant_of_a_preoxygenation_is_no_baseline() =>
        Assert.Contains(Chart(1961).Row("o", "09:30", null, null, null, null, null, (Concepts.Fio2, Number(100, Unit.Percent)), (Concepts.Preoxygenation, FactValue.Yes))
            .Row("s", Concepts.SuctionPass, "10:00", FactValue.Absent).Judge().Findings, one => one.Rule.Id == "preoxygenation-missing");

    // What cannot be told is listed once per check and line, but each order by itself.
    [Fact]
    public void What_two_orders_leave_open_is_said_of_each()
    {
        var found = Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Order("a", "09:00", "active", (Concepts.CatheterSize, Number(12, Unit.French)))
            .Order("b", "09:10", "active", (Concepts.CatheterSize, Number(14, Unit.French))).Judge();
        Assert.Equal("ServiceRequest/a ServiceRequest/b", string.Join(" ", found.CannotTell.Where(one => one.Rule.Id == "catheter-too-wide").Select(one => one.Line).Order(StringComparer.Ordinal)));
    }

    // A cannula ends with a false, a diameter of 0 or the end of its use.
    [Fact]
    public void The_end_of_a_cannulas_use_ends_it_though_a_row_had_said_it_was_in_place() =>
        Assert.DoesNotContain(Chart(1961).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8.5m, Unit.Millimetre)).Device("ic", "inner-cannula", (Concepts.InnerCannulaDiameter, Number(6.5m, Unit.Millimetre)))
            .InUse("u", "ic", "08:00", "10:00").Row("m", Concepts.InnerCannulaInPlace, "09:00", FactValue.Yes)
            .Row("s", "11:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(12, Unit.French))).Judge().Findings, one => one.Rule.Id == "catheter-too-wide");

    // An airway ends with its encounter: a tube charted after that was never in use.
    [Fact]
    public void A_tube_charted_after_its_encounter_had_ended_is_not_in_use() =>
        Assert.Contains(Chart(1961).Encounter("e", "07:00", "09:00").Row("t", Concepts.TubeInnerDiameter, "09:10", Number(8, Unit.Millimetre))
            .Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(12, Unit.French))).Judge().CannotTell, one => one.Rule.Id == "catheter-too-wide");

    private static ChartBuilder Chart(int born) => new ChartBuilder().Born(born, 2, 20);
}
