using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>open-suction-where-closed-advised, disconnected-in-lung-injury and clean-technique-in-hospital.</summary>
public sealed class OpenSuctionChecksTests
{
    private const string Advised = "open-suction-where-closed-advised", Disconnected = "disconnected-in-lung-injury", Clean = "clean-technique-in-hospital";

    private static readonly (Concept, FactValue) Open = (Concepts.SuctionSystem, Answer("open")), Closed = (Concepts.SuctionSystem, Answer("closed"));

    // PEEP from 10 cmH2O, FiO2 from 0.60: a procedure manual, from memory.
    [Theory]
    [InlineData(10, 40, "breach 10")]
    [InlineData(9.9, 40, "")]
    [InlineData(8, 60, "breach 0.6")]
    [InlineData(8, 59, "")]
    [InlineData(12, 80, "breach 12")] // of both the first of the table
    public void Open_suction_is_named_at_high_PEEP_or_oxygen(double peep, int percent, string expected) => Assert.Equal(
        expected, Ventilated(peep, percent).Pass("s", "10:00", Open).SaidByBoth(Advised));

    [Fact]
    public void Closed_suction_is_not() => Assert.Equal("", Ventilated(14, 80).Pass("s", "10:00", Closed).SaidByBoth(Advised));

    [Fact]
    public void A_closed_catheter_that_the_procedure_used_says_closed() => Assert.Equal("", Ventilated(14, 80)
        .Device("c", "closed-suction-catheter").Procedure("p", "10:00:00", "10:00:10", uses: ["c"]).SaidByBoth(Advised));

    [Fact]
    public void Where_nobody_says_open_or_closed_only_a_high_value_leaves_it_open()
    {
        Assert.Equal("open SuctionSystem", Ventilated(14, 40).Pass("s", "10:00").SaidByBoth(Advised));
        Assert.Equal("", Ventilated(5, 40).Pass("s", "10:00").SaidByBoth(Advised));
    }

    [Fact]
    public void An_open_pass_without_PEEP_or_oxygen_cannot_be_told()
    {
        Assert.Equal("open Peep", Adult().Oxygen("09:00", 40).Pass("s", "10:00", Open).SaidByBoth(Advised));
        Assert.Equal("open BaselineOxygen", Adult().Row("p", Concepts.Peep, "09:00", Number(5, Unit.CmH2O)).Pass("s", "10:00", Open).SaidByBoth(Advised));
        Assert.Equal("open Peep", Ventilated(5, 40).Pass("s", "14:30", Open).Oxygen("14:00", 40).SaidByBoth(Advised)); // four hours old
    }

    [Fact]
    public void Open_charted_with_one_pass_holds_for_its_session_unless_charted_otherwise() => Assert.Equal(
        [At("10:00"), At("10:03")], Ventilated(12, 40).Pass("s1", "10:00", Open).Pass("s2", "10:03").Pass("s3", "10:06", Closed).Judge().Only(Advised).Occurrences.Select(one => one.At));

    [Fact]
    public void It_ends_with_a_closed_pass()
    {
        var ended = Ventilated(12, 40).Pass("s1", "10:00", Open).Pass("s2", "11:00", Closed).Judge().Only(Advised);

        Assert.Equal((FindingState.Cleared, At("11:00")), (ended.State, ended.EndedAt));
    }

    [Fact]
    public void It_ends_when_PEEP_and_oxygen_are_both_charted_below()
    {
        var chart = Ventilated(12, 70).Pass("s1", "10:00", Open).Row("p2", Concepts.Peep, "10:30", Number(8, Unit.CmH2O));
        Assert.Equal(FindingState.Open, chart.Judge().Only(Advised).State);

        var ended = chart.Oxygen("11:00", 50).Judge().Only(Advised);
        Assert.Equal((FindingState.Cleared, At("11:00")), (ended.State, ended.EndedAt));
    }

    [Fact]
    public void An_order_for_open_suction_stands_on_the_episode_and_ends_with_a_closed_pass()
    {
        var chart = Ventilated(12, 40).Order("a", "09:30", "active", Open);
        var open = chart.Judge().Only(Advised);
        Assert.Equal((FindingState.Open, At("09:30"), "Observation/a"), (open.State, open.First.At, open.Line));

        Assert.Equal(FindingState.Cleared, chart.Pass("s", "10:00", Closed).Judge().Only(Advised).State);
    }

    [Fact]
    public void An_order_before_a_tube_that_was_never_in_use_stands_on_the_patient()
    {
        var found = Adult().Encounter("e", "07:00", "09:00").Row("p", Concepts.Peep, "08:00", Number(12, Unit.CmH2O)).Oxygen("08:00", 40)
            .Row("a", Concepts.AirwayType, "09:10", Answer("tracheal-tube")).Order("o", "08:30", "active", Open).Judge();

        Assert.Equal("Patient/p1", found.Only(Advised).Line);
    }

    // It asks for neither system; the passes made by it are judged.
    [Fact]
    public void An_order_that_names_no_system_is_not_judged_at_high_pressure()
    {
        var found = Adult().Row("p", Concepts.Peep, "08:00", Number(12, Unit.CmH2O)).Oxygen("08:00", 40)
            .Order("o", "08:30", "active", (Concepts.CatheterSize, Number(12, Unit.French))).Judge();

        Assert.Equal("", found.Said(Advised));
    }

    [Fact]
    public void An_order_before_the_first_tube_stands_on_the_episode_to_come()
    {
        var found = Adult().Row("p", Concepts.Peep, "08:00", Number(12, Unit.CmH2O)).Oxygen("08:00", 40)
            .Row("a", Concepts.AirwayType, "09:10", Answer("tracheal-tube")).Order("o", "08:30", "active", Open).Judge();

        Assert.Equal("Observation/a", found.Only(Advised).Line);
    }

    [Fact]
    public void Disconnection_in_lung_injury_is_high()
    {
        var found = Adult().Row("l", Concepts.LungInjury, "08:00", FactValue.Yes).Pass("s", "10:00", (Concepts.VentilatorDisconnected, FactValue.Yes)).Judge();

        Assert.Equal("breach true", found.Said(Disconnected));
        Assert.Equal(Severity.High, found.Only(Disconnected).Latest.Severity);
        Assert.Equal(2, found.Only(Disconnected).Latest.Evidence.Length);
    }

    [Theory]
    [InlineData(true, null, "")] // lung injury not charted counts as absent
    [InlineData(true, false, "")]
    [InlineData(false, true, "")]
    [InlineData(null, true, "")]
    public void Without_both_it_is_no_finding(bool? disconnected, bool? injury, string expected)
    {
        var chart = Adult();
        if (injury is { } charted)
        {
            chart.Row("l0", Concepts.LungInjury, "07:00", FactValue.Yes).Row("l", Concepts.LungInjury, "08:00", charted ? FactValue.Yes : FactValue.No);
        }

        chart.Pass("s", "10:00", disconnected is { } was ? [(Concepts.VentilatorDisconnected, was ? FactValue.Yes : FactValue.No)] : []);
        Assert.Equal(expected, chart.SaidByBoth(Disconnected));
    }

    [Theory]
    [InlineData("inpatient", "open", "clean", "breach clean")]
    [InlineData("emergency", "open", "clean", "breach clean")]
    [InlineData("elsewhere", "open", "clean", "")]
    [InlineData("inpatient", "closed", "clean", "")]
    [InlineData("inpatient", "open", "sterile", "")]
    [InlineData("inpatient", null, "clean", "open SuctionSystem")]
    [InlineData("inpatient", null, "sterile", "")]
    [InlineData(null, "open", "clean", "open EncounterClass")]
    [InlineData("inpatient", "open", null, "")]
    public void A_clean_technique_is_named_with_open_suction_in_hospital(string? stay, string? system, string? technique, string expected)
    {
        var with = new List<(Concept, FactValue)>();
        if (system is not null)
        {
            with.Add((Concepts.SuctionSystem, Answer(system)));
        }

        if (technique is not null)
        {
            with.Add((Concepts.HandTechnique, Answer(technique)));
        }

        Assert.Equal(expected, Adult().Encounter("e", "06:00", stay: stay).Pass("s", "10:00", [.. with]).SaidByBoth(Clean));
    }

    [Fact]
    public void A_pass_that_names_no_encounter_is_held_to_the_one_that_is_running()
    {
        Assert.Equal("breach clean", Adult().Procedure("p", "10:00:00", "10:00:10").Encounter("e", "06:00", stay: "inpatient")
            .Row("t", "10:00", null, null, null, "p", null, Open, (Concepts.HandTechnique, Answer("clean"))).SaidByBoth(Clean));
        Assert.Equal("open EncounterClass", Adult().Procedure("p", "10:00:00", "10:00:10").Encounter("e", "06:00", "09:00", "inpatient")
            .Row("t", "10:00", null, null, null, "p", null, Open, (Concepts.HandTechnique, Answer("clean"))).SaidByBoth(Clean));
    }

    private static ChartBuilder Ventilated(double peep, int percent) => Adult().Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
        .Row("p", Concepts.Peep, "09:00", Number((decimal)peep, Unit.CmH2O)).Oxygen("09:00", percent);
}
