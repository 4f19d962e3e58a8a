using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What was charted but cannot be read is unknown; it is neither absent nor does what stood before it hold on.</summary>
public sealed class UnreadableChartingTests
{
    private const string Wide = "catheter-too-wide", Unknown = "tube-diameter-unknown", Vacuum = "vacuum-above-ceiling";
    private const string Bleeding = "bleeding-risk-with-high-vacuum", Disconnected = "disconnected-in-lung-injury", Preoxygenation = "preoxygenation-missing";

    // 12 Fr is 4 mm: half of 8.0 mm, which is allowed, and 0.615 of 6.5 mm, which is not.
    [Fact]
    public void A_cannulas_diameter_that_cannot_be_read_is_not_that_of_the_tube()
    {
        Assert.Equal("", Tube().Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("breach 0.615", Tube().Row("c", Concepts.InnerCannulaDiameter, "09:00", Number(6.5m, Unit.Millimetre)).Pass("s", "10:00", Catheter).Judge().Said(Wide));

        var found = Tube().Row("c", Concepts.InnerCannulaDiameter, "09:00", FactValue.Unreadable).Pass("s", "10:00", Catheter).Judge();
        Assert.Equal("open InnerCannulaDiameter", found.Said(Wide));
        Assert.Equal("breach missing", found.Said(Unknown));
    }

    [Fact]
    public void A_mark_of_a_cannula_that_cannot_be_read_leaves_the_diameter_unknown_until_one_can()
    {
        Assert.Equal("open InnerCannulaDiameter", Marked().Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("", Marked().Pass("s", "08:30", Catheter).Judge().Said(Wide));
        Assert.Equal("", Marked().Row("m2", Concepts.InnerCannulaInPlace, "09:30", FactValue.No).Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("", Marked().Row("m2", Concepts.InnerCannulaInPlace, "09:00", FactValue.No).Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("", Marked().TakeBack("m").Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("breach 0.615", Marked().Row("c", Concepts.InnerCannulaDiameter, "09:30", Number(6.5m, Unit.Millimetre)).Pass("s", "10:00", Catheter).Judge().Said(Wide));
    }

    [Fact]
    public void A_mark_that_can_be_read_again_brings_back_the_diameter_charted_before()
    {
        var chart = Tube().Row("c", Concepts.InnerCannulaDiameter, "08:30", Number(6.5m, Unit.Millimetre)).Row("m", Concepts.InnerCannulaInPlace, "09:00", FactValue.Unreadable);
        Assert.Equal("open InnerCannulaDiameter", chart.Pass("s", "10:00", Catheter).Judge().Said(Wide));
        Assert.Equal("breach 0.615", chart.Row("m2", Concepts.InnerCannulaInPlace, "09:30", FactValue.Yes).Judge().Said(Wide));
    }

    [Fact]
    public void A_newer_tube_diameter_that_cannot_be_read_ends_the_one_before_until_one_can()
    {
        var chart = Tube().Pass("s1", "08:30", Catheter).Row("t2", Concepts.TubeInnerDiameter, "09:00", FactValue.Unreadable).Pass("s", "10:00", Catheter);
        var found = chart.Judge();
        Assert.Equal("open TubeInnerDiameter", found.Said(Wide));
        Assert.Equal(At("10:00"), found.Only(Unknown).First.At);

        Assert.Equal("cleared missing", chart.Row("t3", Concepts.TubeInnerDiameter, "13:00", Number(8, Unit.Millimetre)).Judge().Said(Unknown));
        Assert.Equal("", chart.TakeBack("t2").Judge().Said(Wide));
    }

    [Fact]
    public void Beside_a_diameter_of_the_same_instant_that_can_be_read_it_says_nothing()
    {
        var chart = Tube().Row("t2", Concepts.TubeInnerDiameter, "08:00", FactValue.Unreadable).Pass("s", "10:00", Catheter);

        Assert.Equal("", chart.Judge().Said(Wide));
    }

    // Adults: above 150, and above 120 where intracranial pressure is monitored.
    [Theory]
    [InlineData(151, "breach 151")]
    [InlineData(150, "open IntracranialPressureMonitored")]
    [InlineData(121, "open IntracranialPressureMonitored")]
    [InlineData(120, "")]
    public void Between_the_two_limits_a_circumstance_that_cannot_be_read_leaves_it_open(int vacuum, string expected)
    {
        var chart = Adult().Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Unreadable).Row("v", Concepts.VacuumPressure, "10:00", Number(vacuum, Unit.MmHg));

        Assert.Equal(expected, chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void A_circumstance_that_holds_holds_on_and_one_denied_before_is_open()
    {
        Assert.Equal("breach 130", Monitored(FactValue.Yes).Judge().Said(Vacuum));
        Assert.Equal("open IntracranialPressureMonitored", Monitored(FactValue.No).Judge().Said(Vacuum));
        Assert.Equal("", Monitored(FactValue.Yes).Row("i3", Concepts.IntracranialPressureMonitored, "09:30", FactValue.No).Judge().Said(Vacuum));
        Assert.Equal("", Monitored(FactValue.No).TakeBack("i2").Judge().Said(Vacuum));
    }

    [Fact]
    public void It_ends_with_its_encounter()
    {
        var chart = Adult().Encounter("e1", "07:00", "09:00").Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Unreadable)
            .Encounter("e2", "09:00").Row("v", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg));

        Assert.Equal("", chart.Judge().Said(Vacuum));
    }

    [Theory]
    [InlineData(121, "open BleedingRisk")]
    [InlineData(120, "")]
    public void A_risk_of_bleeding_that_cannot_be_read_leaves_a_high_vacuum_open(int vacuum, string expected) => Assert.Equal(
        expected, Adult().Row("b", Concepts.BleedingRisk, "08:00", FactValue.Unreadable).Row("v", Concepts.VacuumPressure, "10:00", Number(vacuum, Unit.MmHg)).Judge().Said(Bleeding));

    [Fact]
    public void Neither_lung_injury_nor_a_disconnection_that_cannot_be_read_counts_as_none()
    {
        Assert.Equal("open LungInjury", Injured(FactValue.Unreadable, FactValue.Yes));
        Assert.Equal("", Injured(FactValue.Unreadable, FactValue.No));
        Assert.Equal("open VentilatorDisconnected", Injured(FactValue.Yes, FactValue.Unreadable));
        Assert.Equal("", Injured(FactValue.No, FactValue.Unreadable));
    }

    [Fact]
    public void A_contraindication_that_cannot_be_read_leaves_missing_oxygen_open()
    {
        Assert.Equal("breach missing", Adult().Pass("s", "10:00").Judge().Said(Preoxygenation));
        Assert.Equal(
            "open HyperoxygenationContraindicated",
            Adult().Row("h", Concepts.HyperoxygenationContraindicated, "08:00", FactValue.Unreadable).Pass("s", "10:00").Judge().Said(Preoxygenation));
    }

    // Neonates: above 80; infants: above 100. Born 90 days before: a neonate if born early enough.
    [Theory]
    [InlineData(2025, 12, 1, "open GestationalAge")]
    [InlineData(2026, 2, 20, "breach 90")]
    [InlineData(2020, 2, 20, "")]
    public void A_gestational_age_that_cannot_be_read_leaves_the_band_open_where_it_matters(int year, int month, int day, string expected)
    {
        var chart = new ChartBuilder().Born(year, month, day).Row("g", Concepts.GestationalAgeAtBirth, "08:00", FactValue.Unreadable)
            .Row("v", Concepts.VacuumPressure, "10:00", Number(90, Unit.MmHg));

        Assert.Equal(expected, chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void A_gestational_age_charted_again_is_used()
    {
        var chart = new ChartBuilder().Born(2025, 12, 1).Row("g", Concepts.GestationalAgeAtBirth, "08:00", FactValue.Unreadable)
            .Row("g2", Concepts.GestationalAgeAtBirth, "09:00", Number(39, Unit.Week)).Row("v", Concepts.VacuumPressure, "10:00", Number(90, Unit.MmHg));

        Assert.Equal("", chart.Judge().Said(Vacuum));
    }

    private static (Concept, FactValue) Catheter => (Concepts.CatheterSize, Number(12, Unit.French));

    private static ChartBuilder Tube() => Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre));

    private static ChartBuilder Marked() => Tube().Row("m", Concepts.InnerCannulaInPlace, "09:00", FactValue.Unreadable);

    private static ChartBuilder Monitored(FactValue before) => Adult().Row("i1", Concepts.IntracranialPressureMonitored, "08:00", before)
        .Row("i2", Concepts.IntracranialPressureMonitored, "09:00", FactValue.Unreadable).Row("v", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg));

    private static string Injured(FactValue injury, FactValue disconnected) =>
        Adult().Row("l", Concepts.LungInjury, "08:00", injury).Pass("s", "10:00", (Concepts.VentilatorDisconnected, disconnected)).Judge().Said(Disconnected);
}
