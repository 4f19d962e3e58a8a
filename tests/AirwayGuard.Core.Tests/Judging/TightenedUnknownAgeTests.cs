using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Without an age a circumstance that sets one limit for all ages is judged by it; what it leaves to the age stays open.</summary>
public sealed class TightenedUnknownAgeTests
{
    private const string Vacuum = "vacuum-above-ceiling", Ordered = "ordered-vacuum-above-ceiling", Long = "pass-too-long";

    // Strict: above 80, 100, 120 and 150; with intracranial pressure monitored above 120 at any age.
    [Theory]
    [InlineData(600, "breach 600")]
    [InlineData(121, "breach 121")]
    [InlineData(120, "open BirthDate")]
    [InlineData(70, "open BirthDate")]
    public void A_vacuum_above_what_holds_at_any_age_breaches(int vacuum, string expected)
    {
        var found = Monitored(new ChartBuilder()).Row("v", Concepts.VacuumPressure, "10:00", Number(vacuum, Unit.MmHg)).Judge();
        Assert.Equal(expected, found.Said(Vacuum));
        Assert.Equal("open BirthDate", new ChartBuilder().Row("v", Concepts.VacuumPressure, "10:00", Number(vacuum, Unit.MmHg)).Judge().Said(Vacuum));
    }

    [Fact]
    public void What_it_is_judged_by_and_that_the_band_is_unknown_is_told()
    {
        var finding = Monitored(new ChartBuilder()).Row("v", Concepts.VacuumPressure, "10:00", Number(600, Unit.MmHg)).Judge().Only(Vacuum);

        Assert.Equal((AgeBand.Unknown, 120m), (finding.Latest.Band, finding.Latest.Limit!.Low));
    }

    // Born in 2008: 17 or 18 years old, both held to 120.
    [Theory]
    [InlineData(121, "breach 121")]
    [InlineData(120, "")]
    public void Where_the_limit_is_the_same_in_every_possible_band_it_is_judged_by_it(int vacuum, string expected)
    {
        var chart = Monitored(new ChartBuilder().Born(2008)).Row("v", Concepts.VacuumPressure, "10:00", Number(vacuum, Unit.MmHg));

        Assert.Equal(expected, chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void An_order_is_held_to_it_too() => Assert.Equal(
        "breach 200", Monitored(new ChartBuilder()).Order("o", "09:00", "active", (Concepts.OrderVacuumHigh, Number(200, Unit.MmHg))).Judge().Said(Ordered));

    // Above 15 s, of neonates 10; with intracranial pressure monitored above 10 at any age.
    [Theory]
    [InlineData(11, "breach 11")]
    [InlineData(10, "")]
    public void A_pass_is_judged_by_the_length_that_holds_at_any_age(int seconds, string expected)
    {
        Assert.Equal(expected, Monitored(new ChartBuilder()).Pass("s", "10:00", (Concepts.PassDuration, Number(seconds, Unit.Second))).Judge().Said(Long));
        Assert.Equal("open BirthDate", new ChartBuilder().Pass("s", "10:00", (Concepts.PassDuration, Number(seconds, Unit.Second))).Judge().Said(Long));
    }

    [Fact]
    public void Whether_it_is_monitored_must_be_known() => Assert.Equal(
        "open BirthDate", new ChartBuilder().Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Unreadable)
            .Row("v", Concepts.VacuumPressure, "10:00", Number(600, Unit.MmHg)).Judge().Said(Vacuum));

    private static ChartBuilder Monitored(ChartBuilder chart) => chart.Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Yes);
}
