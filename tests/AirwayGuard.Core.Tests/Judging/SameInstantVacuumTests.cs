using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What an adult's vacuum comes to where its unit, its sign or a second reading of the instant could hide a breach.</summary>
public sealed class SameInstantVacuumTests
{
    private const string Check = "vacuum-above-ceiling";

    private static ChartBuilder Read(decimal amount, Unit unit, Comparator comparator = Comparator.Exactly) =>
        CheckWords.Adult().Row("v", Concepts.VacuumPressure, "10:00", Number(amount, unit, comparator));

    [Fact]
    public void The_deeper_of_two_readings_counts_also_where_its_number_is_the_smaller() =>
        Assert.Equal("breach 300.026", Read(140, Unit.MmHg).Row("w", Concepts.VacuumPressure, "10:00", Number(40, Unit.Kilopascal)).SaidByBoth(Check));

    [Theory]
    [InlineData(Comparator.Below, "breach 250")] // below -250 is deeper than 250
    [InlineData(Comparator.Above, "open ExactValue")] // above -250 is not as deep as 250
    public void A_comparator_on_a_negative_number_points_the_other_way(Comparator comparator, string said) =>
        Assert.Equal(said, Read(-250, Unit.MmHg, comparator).SaidByBoth(Check));

    [Fact]
    public void A_reading_within_the_limit_says_nothing_beside_one_whose_unit_cannot_be_true() =>
        Assert.Equal("open VacuumUnit", Read(100, Unit.MmHg).Row("w", Concepts.VacuumPressure, "10:00", Number(900, Unit.MmHg)).SaidByBoth(Check));
}
