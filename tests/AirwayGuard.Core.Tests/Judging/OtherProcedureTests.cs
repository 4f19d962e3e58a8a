using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What is part of a Procedure is of its suction: of another than the airway's it is not judged, and where it says something else nobody can tell.</summary>
public sealed class OtherProcedureTests
{
    private const string Vacuum = "vacuum-above-ceiling", Long = "pass-too-long", FullLine = "regulator-on-full-line", NotChecked = "vacuum-not-checked-before-pass";

    [Fact]
    public void Rows_of_a_Procedure_of_another_suction_are_not_the_airways()
    {
        var found = Other().Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second), act: "n").Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg), act: "n")
            .Row("m", Concepts.RegulatorMode, "10:01", Answer("full-line"), act: "n").Row("c", Concepts.CatheterSize, "10:00", Number(18, Unit.French), act: "n").Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    [Fact]
    public void A_pass_row_that_is_part_of_it_is_kept_and_counted_as_of_another_suction()
    {
        var chart = Other().Row("s", "10:00", null, null, null, "n", null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.PassDuration, Number(40, Unit.Second)));

        Assert.Empty(chart.Judge().Findings);
    }

    [Fact]
    public void Rows_beside_it_in_time_alone_are_the_airways()
    {
        var chart = Other().Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second)).Row("v", Concepts.VacuumPressure, "10:00", Number(220, Unit.MmHg));

        Assert.Equal("breach 40", chart.Judge().Said(Long));
        Assert.Equal("breach 220", chart.Judge().Said(Vacuum));
    }

    [Fact]
    public void A_part_that_says_the_airway_is_open()
    {
        var chart = Other().Row("v", "10:00", null, null, null, "n", null, (Concepts.VacuumPressure, Number(220, Unit.MmHg)), (Concepts.SuctionUse, Answer("airway")))
            .Row("m", "11:00", null, null, null, "n", null, (Concepts.RegulatorMode, Answer("full-line")), (Concepts.SuctionUse, Answer("other")));

        Assert.Equal("open SuctionUse", chart.Judge().Said(Vacuum));
        Assert.Equal("", chart.Judge().Said(FullLine));
    }

    [Fact]
    public void A_use_alone_that_is_part_of_a_Procedure_of_the_airway_leaves_its_pass_open()
    {
        var chart = Adult().Procedure("p", "10:00").Row("d", Concepts.PassDuration, "10:00", Number(40, Unit.Second), act: "p");

        Assert.Equal("breach 40", chart.Judge().Said(Long));
        Assert.Equal("open PassUse", chart.Row("u", Concepts.SuctionUse, "10:00", Answer("oral"), act: "p").Judge().Said(Long));
        Assert.Equal("breach 40", chart.Row("u", Concepts.SuctionUse, "10:00", Answer("airway"), act: "p").Judge().Said(Long));
        Assert.Equal("open PassUse", chart.Row("u", Concepts.SuctionUse, "10:00", FactValue.Unreadable, act: "p").Judge().Said(NotChecked));
    }

    private static ChartBuilder Other() => Adult().OtherProcedure("n", "10:00");
}
