using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>
/// Values of one instant that contradict each other: what is found hangs neither on which was read first nor on the names of the rows,
/// and a contradiction hides nothing.
/// </summary>
public sealed class ContradictionTests
{
    private static readonly (Concept, FactValue) Open = (Concepts.SuctionSystem, Answer("open"));

    [Theory]
    [InlineData(40, 60)]
    [InlineData(60, 40)]
    public void Of_two_baselines_the_lower_shows_that_oxygen_was_left_raised(int first, int second) => Assert.Equal(
        "breach 20", Twice(Concepts.Fio2, first, second, Unit.Percent).Pass("s", "10:00").Oxygen("10:20", 60).SaidByBoth("oxygen-not-returned"));

    [Theory]
    [InlineData(40, 60)]
    [InlineData(60, 40)]
    public void Of_two_baselines_the_higher_advises_a_closed_system(int first, int second) => Assert.Equal(
        "breach 0.6", Twice(Concepts.Fio2, first, second, Unit.Percent).Row("p", Concepts.Peep, "09:00", Number(5, Unit.CmH2O)).Pass("s", "10:00", Open)
            .SaidByBoth("open-suction-where-closed-advised"));

    [Theory]
    [InlineData(5, 12)]
    [InlineData(12, 5)]
    public void Of_two_end_expiratory_pressures_the_higher_advises_a_closed_system(int first, int second) => Assert.Equal(
        "breach 12", Twice(Concepts.Peep, first, second, Unit.CmH2O).Oxygen("09:00", 40).Pass("s", "10:00", Open).SaidByBoth("open-suction-where-closed-advised"));

    [Theory]
    [InlineData(40, 100)]
    [InlineData(100, 40)]
    public void Full_oxygen_beside_less_is_no_baseline_of_full_oxygen(int first, int second) => Assert.Equal(
        "breach missing", Twice(Concepts.Fio2, first, second, Unit.Percent).Pass("s", "10:00").SaidByBoth("preoxygenation-missing"));

    [Theory]
    [InlineData(1.5, 3)]
    [InlineData(3, 1.5)]
    public void Of_two_weights_the_lower_makes_the_dose(double first, double second) => Assert.Equal("breach 0.333", Neonate()
        .Row("a", Concepts.BodyWeight, "09:00", Number((decimal)first, Unit.Kilogram)).Row("b", Concepts.BodyWeight, "09:00", Number((decimal)second, Unit.Kilogram))
        .Pass("s", "10:00", (Concepts.SalineInstilled, Number(0.5m, Unit.Millilitre))).SaidByBoth("saline-dose-high"));

    // A kind charted in the same minute as a new size is that of the new tube: the old one was not a tracheostomy.
    [Fact]
    public void A_kind_charted_beside_a_new_size_says_nothing_of_the_tube_before()
    {
        var found = Adult().Row("d1", Concepts.TubeInnerDiameter, "06:00", Number(8, Unit.Millimetre))
            .Row("a", Concepts.AirwayType, "12:00", Answer("tracheostomy-tube")).Row("d2", Concepts.TubeInnerDiameter, "12:00", Number(6.5m, Unit.Millimetre)).Judge(asOf: "13:00");

        Assert.Equal(At("12:00"), found.Only("airway-assessment-overdue").First.At);
    }

    // The airway is out, so nobody will chart that its oxygen is back.
    [Fact]
    public void What_falls_due_once_the_airway_is_out_does_not_stand_for_ever()
    {
        var found = Adult().Row("a", Concepts.AirwayType, "06:00", Answer("tracheal-tube")).Oxygen("09:00", 40).Pass("s", "10:00")
            .Row("none", Concepts.AirwayType, "10:05", Answer("none")).Oxygen("11:30", 98).Judge();

        Assert.Equal(FindingState.Cleared, found.Only("oxygen-not-returned").State);
    }

    // A change is told by the value before it, however long ago that was charted and in whichever unit and sign.
    [Theory]
    [InlineData("08:00", 120, Unit.MmHg, "breach missing")]
    [InlineData("08:00", -16, Unit.Kilopascal, "")]
    public void A_set_value_of_the_day_before_tells_a_change_before_the_pass(string first, int then, Unit unit, string expected) => Assert.Equal(expected, Adult()
        .Row("s1", Concepts.VacuumSet, first, Number(then, unit)).Row("v", Concepts.VacuumPressure, "2 09:50", Number(100, Unit.MmHg))
        .Row("s2", Concepts.VacuumSet, "2 09:55", Number(unit == Unit.MmHg ? 100 : 120, Unit.MmHg)).Pass("s", "2 10:00").SaidByBoth("vacuum-not-checked-before-pass"));

    // Read first and named first: neither may decide.
    private static ChartBuilder Twice(Concept concept, int first, int second, Unit unit) =>
        Adult().Row("b", concept, "09:00", Number(first, unit)).Row("a", concept, "09:00", Number(second, unit));
}
