using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A tube's diameter does not change while it is in place: the first that is charted of an airway is that of its earlier passes too.</summary>
public sealed class TubeSizeChartedLaterTests
{
    private const string Wide = "catheter-too-wide", Unknown = "tube-diameter-unknown";

    // 12 Fr is 4 mm: half of 8.0 mm, which is allowed, and 0.615 of 6.5 mm, which is not.
    [Theory]
    [InlineData("8.0", "")]
    [InlineData("6.5", "breach 0.615")]
    public void A_pass_before_the_size_was_charted_is_judged_by_it(string size, string expected)
    {
        var chart = Kind().Pass("s", "09:00", Catheter).Row("t", Concepts.TubeInnerDiameter, "12:00", Size(size));

        Assert.Equal(expected, chart.Judge().Said(Wide));
    }

    [Fact]
    public void The_diameter_was_still_missing_until_then()
    {
        var chart = Kind().Pass("s", "09:00", Catheter);
        Assert.Equal("breach missing", chart.Judge().Said(Unknown));
        Assert.Equal("open TubeInnerDiameter", chart.Judge().Said(Wide));

        Assert.Equal("cleared missing", chart.Row("t", Concepts.TubeInnerDiameter, "12:00", Size("8.0")).Judge().Said(Unknown));
    }

    [Fact]
    public void Judged_before_it_was_charted_nobody_can_tell()
    {
        var chart = Kind().Pass("s", "09:00", Catheter).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"));

        Assert.Equal("open TubeInnerDiameter", chart.Judge(asOf: "11:30").Said(Wide));
        Assert.Equal("breach 0.615", chart.Judge(asOf: "12:00").Said(Wide));
    }

    [Fact]
    public void A_size_that_is_another_tubes_says_nothing_of_the_one_before()
    {
        var chart = Kind().Pass("s", "09:00", Catheter);
        Assert.Equal("open TubeInnerDiameter", chart.Row("k2", Concepts.AirwayType, "11:00", Answer("tracheostomy-tube")).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5")).Judge().Said(Wide));

        var removed = Kind().Pass("s", "09:00", Catheter).Row("n", Concepts.AirwayType, "11:00", Answer("none")).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"));
        Assert.Equal("open TubeInnerDiameter", removed.Judge().Said(Wide));
    }

    [Fact]
    public void Of_two_sizes_the_first_is_that_of_the_passes_before_it()
    {
        var chart = Kind().Pass("s", "09:00", Catheter).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("8.0")).Row("t2", Concepts.TubeInnerDiameter, "14:00", Size("6.5"));

        Assert.Equal("", chart.Judge().Said(Wide));
    }

    [Fact]
    public void Behind_a_size_that_cannot_be_read_nobody_knows_which_it_was()
    {
        var chart = Kind().Pass("s", "09:00", Catheter).Row("t1", Concepts.TubeInnerDiameter, "10:00", FactValue.Unreadable).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"));

        Assert.Equal("open TubeInnerDiameter", chart.Judge().Said(Wide));
        Assert.Equal("breach 0.615", chart.TakeBack("t1").Judge().Said(Wide));
    }

    [Fact]
    public void A_cannula_in_place_at_the_pass_counts_before_the_tube()
    {
        var chart = Kind().Row("c", Concepts.InnerCannulaDiameter, "08:30", Size("6.5")).Pass("s", "09:00", Catheter)
            .Row("c0", Concepts.InnerCannulaInPlace, "11:00", FactValue.No).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("8.0"));

        Assert.Equal("breach 0.615", chart.Judge().Said(Wide));
    }

    [Fact]
    public void A_row_about_the_tubes_own_device_tells_the_size_of_earlier_passes_too()
    {
        var chart = Adult().Device("tube", "tracheal-tube").InUse("u", "tube", "08:00").Pass("s", "09:00", Catheter)
            .Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"), about: "tube");

        Assert.Equal("breach 0.615", chart.Judge().Said(Wide));
    }

    [Fact]
    public void A_device_whose_size_is_charted_again_keeps_it_for_earlier_passes()
    {
        var chart = Adult().Device("tube", "tracheal-tube", (Concepts.TubeInnerDiameter, Size("6.5"))).InUse("u", "tube", "08:00").Pass("s", "09:00", Catheter)
            .Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"), about: "tube");

        Assert.Equal("breach 0.615", chart.Judge().Said(Wide));
    }

    [Fact]
    public void An_order_written_before_the_size_was_charted_is_judged_by_it()
    {
        var chart = Kind().Order("o", "09:00", "active", Catheter).Row("t", Concepts.TubeInnerDiameter, "12:00", Size("6.5"));

        Assert.Equal("breach 0.615", chart.Judge().Said(Wide));
    }

    private static (Concept, FactValue) Catheter => (Concepts.CatheterSize, Number(12, Unit.French));

    private static FactValue Size(string millimetres) => Number(decimal.Parse(millimetres, System.Globalization.CultureInfo.InvariantCulture), Unit.Millimetre);

    private static ChartBuilder Kind() => Adult().Row("k", Concepts.AirwayType, "08:00", Answer("tracheal-tube"));
}
