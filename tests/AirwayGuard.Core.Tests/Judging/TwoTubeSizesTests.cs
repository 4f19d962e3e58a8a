using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Two sizes of one tube at one instant: which holds, nobody knows, so that neither is used, and the laxer one ends nothing.</summary>
public sealed class TwoTubeSizesTests
{
    private const string Wide = "catheter-too-wide", Unknown = "tube-diameter-unknown";

    // 12 Fr is 4 mm: half of 8 mm, which is allowed, and 0.571 of 7 mm, which is not.
    [Theory]
    [InlineData("09:00", 7, 8)]
    [InlineData("09:00", 8, 7)]
    [InlineData("11:00", 7, 8)]
    [InlineData("11:00", 8, 7)]
    [InlineData("10:00", 7, 8)]
    public void Before_a_pass_or_after_it_neither_is_used(string at, int first, int second)
    {
        var chart = Kind().Pass("s", "10:00", Catheter).Row("a", Concepts.TubeInnerDiameter, at, Size(first)).Row("b", Concepts.TubeInnerDiameter, at, Size(second));

        Assert.Equal("open TubeInnerDiameter", chart.SaidByBoth(Wide));
        Assert.Equal("breach missing", chart.SaidByBoth(Unknown));
    }

    [Fact]
    public void Alone_they_tell_of_an_airway_of_unknown_size()
    {
        var chart = Adult().Row("a", Concepts.TubeInnerDiameter, "09:00", Size(7)).Row("b", Concepts.TubeInnerDiameter, "09:00", Size(8)).Pass("s", "10:00", Catheter);

        Assert.Equal("open TubeInnerDiameter", chart.SaidByBoth(Wide));
        Assert.Equal("breach missing", chart.SaidByBoth(Unknown));
    }

    [Fact]
    public void Two_of_one_row_are_no_better()
    {
        var chart = Kind().Row("a", "09:00", null, null, null, null, null, (Concepts.TubeInnerDiameter, Size(7)), (Concepts.TubeInnerDiameter, Size(8))).Pass("s", "10:00", Catheter);

        Assert.Equal("open TubeInnerDiameter", chart.SaidByBoth(Wide));
    }

    [Fact]
    public void What_was_charted_before_holds_until_them_and_what_is_charted_after_from_then()
    {
        var chart = Kind().Row("t", Concepts.TubeInnerDiameter, "08:00", Size(7)).Pass("s1", "08:30", Catheter)
            .Row("a", Concepts.TubeInnerDiameter, "09:00", Size(7)).Row("b", Concepts.TubeInnerDiameter, "09:00", Size(8)).Pass("s2", "10:00", Catheter)
            .Row("c", Concepts.TubeInnerDiameter, "11:00", Size(7)).Pass("s3", "12:00", Catheter);

        var found = chart.Judge();

        Assert.Equal("breach 0.571, open TubeInnerDiameter", found.Said(Wide));
        Assert.Equal([At("08:30"), At("12:00")], found.Only(Wide).Occurrences.Select(one => one.At));
        Assert.Equal(At("10:00"), found.CannotTell.Single(one => one.Rule.Id == Wide).At);
    }

    [Fact]
    public void The_laxer_of_two_ends_no_finding()
    {
        var chart = Kind().Row("t", Concepts.TubeInnerDiameter, "08:00", Size(7)).Pass("s", "09:00", Catheter)
            .Row("a", Concepts.TubeInnerDiameter, "11:00", Size(7)).Row("b", Concepts.TubeInnerDiameter, "11:00", Size(8));

        Assert.Equal("breach 0.571", chart.SaidByBoth(Wide));
    }

    [Fact]
    public void The_same_size_twice_is_no_contradiction()
    {
        var chart = Kind().Row("a", Concepts.TubeInnerDiameter, "09:00", Size(7)).Row("b", Concepts.TubeInnerDiameter, "09:00", Number(0.7m, Unit.Centimetre)).Pass("s", "10:00", Catheter);

        Assert.Equal("breach 0.571", chart.SaidByBoth(Wide));
    }

    [Fact]
    public void A_tube_whose_description_tells_two_sizes_has_none()
    {
        var chart = Adult().Device("tube", "tracheal-tube", (Concepts.TubeInnerDiameter, Size(7)), (Concepts.TubeInnerDiameter, Size(8))).InUse("u", "tube", "08:00").Pass("s", "10:00", Catheter);

        Assert.Equal("open TubeInnerDiameter", chart.SaidByBoth(Wide));
    }

    [Theory]
    [InlineData("tube", "tube")]
    [InlineData(null, "tube")]
    [InlineData("tube", null)]
    public void Rows_about_the_tubes_own_Device_contradict_each_other_and_the_patients(string? one, string? other)
    {
        var chart = Adult().Device("tube", "tracheal-tube").InUse("u", "tube", "08:00").Pass("s", "10:00", Catheter)
            .Row("a", Concepts.TubeInnerDiameter, "09:00", Size(7), about: one).Row("b", Concepts.TubeInnerDiameter, "09:00", Size(8), about: other);

        Assert.Equal("open TubeInnerDiameter", chart.SaidByBoth(Wide));
    }

    [Fact]
    public void Two_sizes_of_an_inner_cannula_at_one_instant_are_none()
    {
        var chart = Kind().Row("t", Concepts.TubeInnerDiameter, "08:00", Size(8))
            .Row("a", Concepts.InnerCannulaDiameter, "09:00", Size(6)).Row("b", Concepts.InnerCannulaDiameter, "09:00", Size(8)).Pass("s", "10:00", Catheter);

        Assert.Equal("open InnerCannulaDiameter", chart.SaidByBoth(Wide));
    }

    private static (Concept, FactValue) Catheter => (Concepts.CatheterSize, Number(12, Unit.French));

    private static FactValue Size(int millimetres) => Number(millimetres, Unit.Millimetre);

    private static ChartBuilder Kind() => Adult().Row("k", Concepts.AirwayType, "07:00", Answer("tracheal-tube"));
}
