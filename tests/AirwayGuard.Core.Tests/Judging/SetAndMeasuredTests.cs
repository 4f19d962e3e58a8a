using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Of a value set and one measured at the same instant the set one counts, whichever was charted first: at open suction on PEEP from 10 cm[H2O] or oxygen from 60 %.</summary>
public sealed class SetAndMeasuredTests
{
    private const string Check = "open-suction-where-closed-advised";

    private static ChartBuilder OpenPass() => CheckWords.Adult().Pass("p", "10:00", (Concepts.SuctionSystem, Answer("open")));

    [Theory]
    [InlineData("a", "z", 12, 8, "breach 12")]
    [InlineData("z", "a", 12, 8, "breach 12")]
    [InlineData("a", "z", 8, 12, "")]
    [InlineData("z", "a", 8, 12, "")]
    public void A_set_PEEP_counts_before_a_measured_one(string setRow, string measuredRow, int set, int measured, string said) =>
        Assert.Equal(said, OpenPass().Oxygen("09:00", 30)
            .SetRow(setRow, Concepts.Peep, "09:00", Number(set, Unit.CmH2O)).Row(measuredRow, Concepts.Peep, "09:00", Number(measured, Unit.CmH2O)).SaidByBoth(Check));

    [Theory]
    [InlineData("a", "z", 70, 50, "breach 0.7")]
    [InlineData("z", "a", 70, 50, "breach 0.7")]
    [InlineData("a", "z", 50, 70, "")]
    [InlineData("z", "a", 50, 70, "")]
    public void Oxygen_that_is_set_counts_before_oxygen_that_is_measured(string setRow, string measuredRow, int set, int measured, string said) =>
        Assert.Equal(said, OpenPass().Row("peep", Concepts.Peep, "09:00", Number(5, Unit.CmH2O))
            .SetRow(setRow, Concepts.Fio2, "09:00", Number(set, Unit.Percent)).Row(measuredRow, Concepts.Fio2, "09:00", Number(measured, Unit.Percent)).SaidByBoth(Check));
}
