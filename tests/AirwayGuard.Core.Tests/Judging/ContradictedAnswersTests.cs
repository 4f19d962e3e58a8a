using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Two answers of one instant: the stricter counts whichever was read first, and where neither is stricter nobody can tell.</summary>
public sealed class ContradictedAnswersTests
{
    private const string Vacuum = "vacuum-above-ceiling", Bleeding = "bleeding-risk-with-high-vacuum", Disconnected = "disconnected-in-lung-injury";
    private const string Wide = "catheter-too-wide", Unknown = "tube-diameter-unknown", Clean = "clean-technique-in-hospital", Oxygen = "preoxygenation-missing";

    public static TheoryData<bool> Orders => [true, false];

    [Theory]
    [MemberData(nameof(Orders))]
    public void A_circumstance_charted_as_so_and_as_not_so_holds(bool yesFirst)
    {
        Assert.Equal("breach 130", Reading(Both(Adult(), Concepts.IntracranialPressureMonitored, yesFirst)).Judge().Said(Vacuum));
        Assert.Equal("breach 130", Reading(Both(Adult(), Concepts.BleedingRisk, yesFirst)).Judge().Said(Bleeding));
        Assert.Equal("breach true", Both(Adult(), Concepts.LungInjury, yesFirst).Pass("s", "10:00", (Concepts.VentilatorDisconnected, FactValue.Yes)).Judge().Said(Disconnected));
    }

    [Theory]
    [MemberData(nameof(Orders))]
    public void A_disconnection_charted_as_so_and_as_not_so_with_one_pass_counts(bool yesFirst) =>
        Assert.Equal("breach true", Adult().Row("l", Concepts.LungInjury, "09:00", FactValue.Yes)
            .Pass("s", "10:00", (Concepts.VentilatorDisconnected, yesFirst ? FactValue.Yes : FactValue.No), (Concepts.VentilatorDisconnected, yesFirst ? FactValue.No : FactValue.Yes))
            .Judge().Said(Disconnected));

    [Theory]
    [MemberData(nameof(Orders))]
    public void A_later_word_ends_it_and_a_later_contradiction_brings_it_back(bool yesFirst)
    {
        var denied = Reading(Both(Adult(), Concepts.IntracranialPressureMonitored, yesFirst)).Row("i", Concepts.IntracranialPressureMonitored, "09:30", FactValue.No);
        Assert.Equal("", denied.Judge().Said(Vacuum));

        var before = Reading(Both(Adult().Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.No), Concepts.IntracranialPressureMonitored, yesFirst));
        Assert.Equal("breach 130", before.Judge().Said(Vacuum));
    }

    // A contraindication excuses, so that what says both leaves it open.
    [Theory]
    [MemberData(nameof(Orders))]
    public void A_contraindication_charted_both_ways_leaves_missing_oxygen_open(bool yesFirst) => Assert.Equal(
        "open HyperoxygenationContraindicated", Both(Adult(), Concepts.HyperoxygenationContraindicated, yesFirst).Pass("s", "10:00").Judge().Said(Oxygen));

    [Theory]
    [MemberData(nameof(Orders))]
    public void A_cannula_charted_as_in_place_and_not_leaves_the_diameter_unknown_until_it_is_told_again(bool yesFirst)
    {
        var cannula = Both(Tube().Row("c", Concepts.InnerCannulaDiameter, "08:30", Number(6.5m, Unit.Millimetre)), Concepts.InnerCannulaInPlace, yesFirst)
            .Pass("s", "10:00", (Concepts.CatheterSize, Number(12, Unit.French)));
        var found = cannula.Judge();
        Assert.Equal("open InnerCannulaDiameter", found.Said(Wide));
        Assert.Equal("breach missing", found.Said(Unknown));
        Assert.Equal("breach 0.615", cannula.Row("m", Concepts.InnerCannulaInPlace, "09:30", FactValue.Yes).Judge().Said(Wide));
        Assert.Equal("", cannula.Row("m", Concepts.InnerCannulaInPlace, "09:30", FactValue.No).Judge().Said(Wide));
    }

    [Theory]
    [MemberData(nameof(Orders))]
    public void A_size_charted_beside_it_settles_nothing(bool yesFirst) => Assert.Equal(
        "open InnerCannulaDiameter", Both(Tube(), Concepts.InnerCannulaInPlace, yesFirst).Row("c", Concepts.InnerCannulaDiameter, "09:00", Number(6.5m, Unit.Millimetre))
            .Pass("s", "10:00", (Concepts.CatheterSize, Number(12, Unit.French))).Judge().Said(Wide));

    [Theory]
    [InlineData("clean", "sterile")]
    [InlineData("sterile", "clean")]
    public void Of_a_clean_and_a_sterile_technique_clean_counts(string first, string second)
    {
        var own = Stay().Pass("s", "10:00", Open, (Concepts.HandTechnique, Answer(first)), (Concepts.HandTechnique, Answer(second)));
        Assert.Equal("breach clean", own.Judge().Said(Clean));

        var beside = Stay().Pass("s", "10:00", Open).Row("a", Concepts.HandTechnique, "10:00", Answer(first)).Row("b", Concepts.HandTechnique, "10:00", Answer(second)).Pass("t", "10:01");
        Assert.Equal("breach clean, breach clean", beside.Judge().Said(Clean));
    }

    [Theory]
    [InlineData("open", "closed")]
    [InlineData("closed", "open")]
    public void Of_an_open_and_a_closed_system_open_counts(string first, string second) => Assert.Equal("breach clean", Stay()
        .Pass("s", "10:00", (Concepts.SuctionSystem, Answer(first)), (Concepts.SuctionSystem, Answer(second)), (Concepts.HandTechnique, Answer("clean"))).Judge().Said(Clean));

    [Theory]
    [MemberData(nameof(Orders))]
    public void Oxygen_charted_as_given_and_as_not_given_is_open(bool yesFirst)
    {
        var (one, other) = yesFirst ? (FactValue.Yes, FactValue.No) : (FactValue.No, FactValue.Yes);
        Assert.Equal("open Preoxygenation", Adult().Pass("s", "10:00", (Concepts.Preoxygenation, one), (Concepts.Preoxygenation, other)).Judge().Said(Oxygen));
        Assert.Equal("open Preoxygenation", Both(Adult(), Concepts.Preoxygenation, yesFirst, "09:59").Pass("s", "10:00").Judge().Said(Oxygen));
        Assert.Equal("", Both(Adult(), Concepts.Preoxygenation, yesFirst, "09:59").Oxygen("09:59:30", 100).Pass("s", "10:00").Judge().Said(Oxygen));
        Assert.Equal("open Preoxygenation", Both(Adult(), Concepts.Preoxygenation, yesFirst, "09:59").Pass("s", "10:00").Pass("t", "10:04").Judge().Said(Oxygen));
    }

    [Fact]
    public void What_was_given_after_it_was_denied_was_given() => Assert.Equal("", Adult().Row("a", Concepts.Preoxygenation, "09:58:30", FactValue.No)
        .Row("b", Concepts.Preoxygenation, "09:59", FactValue.Yes).Pass("s", "10:00").Judge().Said(Oxygen));

    private static (Concept, FactValue) Open => (Concepts.SuctionSystem, Answer("open"));

    private static ChartBuilder Both(ChartBuilder chart, Concept concept, bool yesFirst, string at = "09:00") => yesFirst
        ? chart.Row("x", concept, at, FactValue.Yes).Row("y", concept, at, FactValue.No)
        : chart.Row("x", concept, at, FactValue.No).Row("y", concept, at, FactValue.Yes);

    private static ChartBuilder Reading(ChartBuilder chart) => chart.Row("v", Concepts.VacuumPressure, "10:00", Number(130, Unit.MmHg));

    private static ChartBuilder Stay() => Adult().Encounter("e", "07:00", stay: "inpatient");

    private static ChartBuilder Tube() => Adult().Row("k", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre));
}
