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
    private const string Cuff = "cuff-pressure-out-of-range", Desaturation = "desaturation-with-suction", Rhythm = "heart-rate-event-with-suction";
    private const string Saline = "saline-without-reason", Dose = "saline-dose-high";

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

    [Theory]
    [InlineData(8.5, "open InnerCannulaDiameter")]
    [InlineData(8.0, "")]
    public void A_cannula_wider_than_its_tube_is_doubted(double cannula, string expected) => Assert.Equal(expected, Tube()
        .Row("c", Concepts.InnerCannulaDiameter, "09:00", Number((decimal)cannula, Unit.Millimetre)).Pass("s", "10:00", Catheter).Judge().Said(Wide));

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

    // Contract §2: a comparator that leaves it open is cannot-tell. 99 % or more counts as full oxygen (§3).
    [Theory]
    [InlineData(0, "open Preoxygenation")]
    [InlineData(95, "open Preoxygenation", Comparator.AtLeast)]
    [InlineData(95, "open Preoxygenation", Comparator.Above)]
    [InlineData(99, "open Preoxygenation", Comparator.AtMost)]
    [InlineData(100, "open Preoxygenation", Comparator.Below)]
    [InlineData(99, "breach missing", Comparator.Below)]
    [InlineData(95, "breach missing", Comparator.AtMost)]
    [InlineData(95, "breach missing")]
    [InlineData(99, "", Comparator.AtLeast)]
    public void Oxygen_charted_so_that_it_may_have_been_full_is_not_taken_for_none(int percent, string expected, Comparator comparator = Comparator.Exactly)
    {
        var value = percent == 0 ? FactValue.Unreadable : Number(percent, Unit.Percent, comparator);

        Assert.Equal(expected, Adult().Row("o", Concepts.Preoxygenation, "09:59", value).Pass("s", "10:00").Judge().Said(Preoxygenation));
        Assert.Equal(expected, Adult().Pass("s", "10:00", (Concepts.Preoxygenation, value)).Judge().Said(Preoxygenation));
    }

    [Fact]
    public void Full_oxygen_charted_beside_what_cannot_be_read_counts()
    {
        var chart = Adult().Row("o", Concepts.Preoxygenation, "09:59", FactValue.Unreadable).Pass("s", "10:00");
        Assert.Equal("", chart.Row("f", Concepts.Fio2, "09:58:30", Number(100, Unit.Percent)).Judge().Said(Preoxygenation));
    }

    [Fact]
    public void Oxygen_before_the_first_pass_that_cannot_be_read_leaves_the_session_open() => Assert.Equal(
        "open Preoxygenation",
        Adult().Row("o", Concepts.Preoxygenation, "09:59", FactValue.Unreadable).Pass("s1", "10:00").Pass("s2", "10:04").Judge().Said(Preoxygenation));

    [Fact]
    public void Of_a_neonate_oxygen_that_cannot_be_read_is_open() => Assert.Equal(
        "open OxygenGiven",
        Neonate().Row("f", Concepts.Fio2, "09:00", Number(30, Unit.Percent)).Row("o", Concepts.Preoxygenation, "09:59", FactValue.Unreadable).Pass("s", "10:00").Judge().Said("neonate-over-oxygenated"));

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

    // Adults: outside 20 to 30 cm[H2O]; infants have no limit.
    [Fact]
    public void A_cuff_pressure_that_cannot_be_read_is_open_and_ends_nothing()
    {
        Assert.Equal("open CuffPressure", Adult().Row("c", Concepts.CuffPressure, "09:00", FactValue.Unreadable).Judge().Said(Cuff));
        Assert.Equal("", Infant().Row("c", Concepts.CuffPressure, "09:00", FactValue.Unreadable).Judge().Said(Cuff));
        Assert.Equal(
            "breach 40, open CuffPressure",
            Adult().Row("c1", Concepts.CuffPressure, "09:00", Number(40, Unit.CmH2O)).Row("c2", Concepts.CuffPressure, "10:00", FactValue.Unreadable).Judge().Said(Cuff));
    }

    [Fact]
    public void A_reaction_that_cannot_be_read_is_open_whatever_else_is_charted_unless_something_breaches()
    {
        Assert.Equal("open Reaction", Reacted(96, FactValue.Unreadable).Judge().Said(Desaturation));
        Assert.Equal("breach 10", Reacted(86, FactValue.Unreadable).Judge().Said(Desaturation));
        Assert.Equal("", Reacted(96, Answer("none")).Judge().Said(Desaturation));
        Assert.Equal("open Reaction", Reacted(96, FactValue.Unreadable, Answer("none")).Judge().Said(Desaturation));
        Assert.Equal("open Reaction", Reacted(96, Answer("bleeding"), FactValue.Unreadable).Judge().Said(Desaturation));
        Assert.Equal("breach desaturation", Reacted(96, FactValue.Unreadable, Answer("desaturation")).Judge().Said(Desaturation));
        Assert.Equal("", Reacted(96, FactValue.NotPerformed).Judge().Said(Desaturation));
    }

    [Fact]
    public void Nor_is_it_no_change_of_rhythm_at_an_age_without_a_limit_of_rate()
    {
        Assert.Equal("open Reaction", Infant().Pass("s", "10:00", (Concepts.SuctionReaction, FactValue.Unreadable)).Judge().Said(Rhythm));
        Assert.Equal("", Infant().Pass("s", "10:00").Judge().Said(Rhythm));
        Assert.Equal("open HeartRate", Adult().Pass("s", "10:00", (Concepts.SuctionReaction, FactValue.Unreadable)).Judge().Said(Rhythm));
    }

    [Fact]
    public void Saline_that_cannot_be_read_is_open_where_no_reason_is_charted()
    {
        var unread = (Concepts.SalineInstilled, FactValue.Unreadable);
        Assert.Equal("open Saline", Adult().Pass("s", "10:00", unread).Judge().Said(Saline));
        Assert.Equal("", Adult().Pass("s", "10:00", unread, (Concepts.AllowanceReason, Answer("emergency"))).Judge().Said(Saline));
        Assert.Equal("breach true", Adult().Pass("s", "10:00", unread, (Concepts.SalineInstilled, FactValue.Yes)).Judge().Said(Saline));
        Assert.Equal("breach 2", Adult().Pass("s", "10:00", unread, (Concepts.SalineInstilled, Number(2, Unit.Millilitre))).Judge().Said(Saline));
        Assert.Equal("open Saline", Adult().Pass("s", "10:00", unread, (Concepts.SalineInstilled, FactValue.No)).Judge().Said(Saline));
    }

    [Fact]
    public void Nor_is_its_dose_within_the_limit()
    {
        Assert.Equal("open Saline", Neonate().Pass("s", "10:00", (Concepts.SalineInstilled, FactValue.Unreadable)).Judge().Said(Dose));
        Assert.Equal("", Adult().Pass("s", "10:00", (Concepts.SalineInstilled, FactValue.Unreadable)).Judge().Said(Dose));
    }

    [Fact]
    public void Alone_they_make_no_pass()
    {
        var found = Adult().Row("r", Concepts.SuctionReaction, "10:00", FactValue.Unreadable).Row("s", Concepts.SalineInstilled, "11:00", FactValue.Unreadable).Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    private static (Concept, FactValue) Catheter => (Concepts.CatheterSize, Number(12, Unit.French));

    private static ChartBuilder Tube() => Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre));

    private static ChartBuilder Marked() => Tube().Row("m", Concepts.InnerCannulaInPlace, "09:00", FactValue.Unreadable);

    private static ChartBuilder Monitored(FactValue before) => Adult().Row("i1", Concepts.IntracranialPressureMonitored, "08:00", before)
        .Row("i2", Concepts.IntracranialPressureMonitored, "09:00", FactValue.Unreadable).Row("v", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg));

    private static string Injured(FactValue injury, FactValue disconnected) =>
        Adult().Row("l", Concepts.LungInjury, "08:00", injury).Pass("s", "10:00", (Concepts.VentilatorDisconnected, disconnected)).Judge().Said(Disconnected);

    // 96 % before the pass and as said after it.
    private static ChartBuilder Reacted(int after, params FactValue[] reactions) => Adult().Row("o1", Concepts.Spo2, "09:58", Number(96, Unit.Percent))
        .Pass("s", "10:00", [.. reactions.Select(reaction => (Concepts.SuctionReaction, reaction))]).Row("o2", Concepts.Spo2, "10:02", Number(after, Unit.Percent));
}
