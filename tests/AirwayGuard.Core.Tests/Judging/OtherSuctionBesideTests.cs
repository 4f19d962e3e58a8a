using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What another suction of the same instant says of a reading: never enough to leave a reading of the airway out in silence.</summary>
public sealed class OtherSuctionBesideTests
{
    private const string Vacuum = "vacuum-above-ceiling", NotChecked = "vacuum-not-checked-before-pass", Long = "pass-too-long";

    [Fact]
    public void A_reading_that_is_part_of_a_Procedure_of_the_airway_is_the_airways_beside_an_oral_pass()
    {
        var chart = Adult().Procedure("p", "10:00").Pass("o", "10:00", Use("oral"))
            .Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg), act: "p");

        Assert.Equal("breach 220", chart.Judge().Said(Vacuum));
        Assert.Equal("", chart.Judge().Said(NotChecked));
    }

    [Fact]
    public void A_reading_of_another_encounter_than_the_oral_pass_is_the_airways()
    {
        var chart = Adult().Encounter("e2", "07:00").Pass("o", "10:00", Use("oral")).Encounter("e1", "07:00").Pass("s", "10:00")
            .Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg));

        Assert.Equal("breach 220", chart.Judge().Said(Vacuum));
        Assert.Equal("", chart.Judge().Said(NotChecked));
    }

    [Theory]
    [InlineData("10:30", "airway", "cleared true")]
    [InlineData("10:30", "oral", "breach true")]
    [InlineData("10:00", "oral", "breach true")]
    public void A_reason_charted_with_another_suction_allows_nothing_at_the_airway(string at, string use, string said) =>
        Assert.Equal(said, Adult().Pass("s", "10:00", (Concepts.SalineInstilled, FactValue.Yes)).Pass("o", at, Use(use), (Concepts.AllowanceReason, Answer("thick-secretions")))
            .Judge().Said("saline-without-reason"));

    // A duration with a use of its own makes no pass, and its word is its own.
    [Fact]
    public void A_row_of_a_pass_that_names_another_suction_speaks_for_no_reading_beside_it()
    {
        var alone = Oral("d").Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg)).Judge();
        Assert.Equal("open SuctionUse", alone.Said(Vacuum));

        var beside = Oral("d").Pass("s", "10:00").Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg)).Judge();
        Assert.Equal("breach 220", beside.Said(Vacuum));
        Assert.Equal("", beside.Said(NotChecked));
    }

    [Fact]
    public void A_reading_tied_to_a_Procedure_of_the_airway_is_open_where_a_row_of_its_instant_says_another_suction()
    {
        var chart = Adult().Procedure("p", "10:00").Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg), act: "p")
            .Row("u", Concepts.SuctionUse, "10:00", Answer("gastric"));

        Assert.Equal("open SuctionUse", chart.Judge().Said(Vacuum));
        Assert.Equal("open SuctionUse", chart.Judge().Said(NotChecked));
    }

    [Fact]
    public void Rows_of_another_column_of_the_chart_do_not_join_an_oral_pass_by_their_time_alone()
    {
        var chart = Adult().Row("o", "10:00", null, null, null, null, "column-1", (Concepts.SuctionPass, FactValue.Absent), Use("oral"))
            .Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second), group: "column-2")
            .Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg), group: "column-2");

        Assert.Equal("breach 40", chart.Judge().Said(Long));
        Assert.Equal("breach 220", chart.Judge().Said(Vacuum));
    }

    private static ChartBuilder Oral(string id) => Adult().Row(
        id, "10:00", null, null, null, null, null, (Concepts.PassDuration, Number(40, Unit.Second)), Use("oral"));

    private static (Concept, FactValue) Use(string use) => (Concepts.SuctionUse, Answer(use));
}
