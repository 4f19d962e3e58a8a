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

/// <summary>too-many-passes, rest-between-passes-short and suction-soon-after-surfactant.</summary>
public sealed class PassRhythmChecksTests
{
    // At most 3: Johns Hopkins University, suctioning of the adult tracheostomy.
    [Theory]
    [InlineData(3, 0, "")]
    [InlineData(4, 0, "breach 4")]
    [InlineData(1, 3, "")]
    [InlineData(1, 4, "breach 4")] // one row that says four
    [InlineData(2, 3, "")] // the larger of the two, not their sum
    [InlineData(4, 2, "breach 4")]
    public void A_session_has_as_many_passes_as_found_or_as_counted_whichever_is_more(int found, int counted, string expected)
    {
        var chart = Adult();
        for (var i = 0; i < found; i++)
        {
            chart.Pass("s" + i, $"10:0{2 * i}", i == 0 && counted > 0 ? [(Concepts.PassCount, Number(counted, Unit.Count))] : []);
        }

        Assert.Equal(expected, chart.SaidByBoth("too-many-passes"));
    }

    [Fact]
    public void Passes_more_than_five_minutes_apart_are_not_added_up() => Assert.Equal("", Adult()
        .Pass("a", "10:00").Pass("b", "10:05").Pass("c", "10:11").Pass("d", "10:16").SaidByBoth("too-many-passes"));

    [Theory]
    [InlineData(Comparator.AtLeast, 4, "breach 4")]
    [InlineData(Comparator.Below, 6, "open ExactValue")]
    public void A_count_that_is_bounded_only_is_judged_as_far_as_it_goes(Comparator comparator, int counted, string expected) => Assert.Equal(
        expected, Adult().Pass("a", "10:00", (Concepts.PassCount, Number(counted, Unit.Count, comparator))).SaidByBoth("too-many-passes"));

    // No source found for 30 s.
    [Theory]
    [InlineData("10:00:40", "")]
    [InlineData("10:00:39", "breach 29")]
    [InlineData("10:00:10", "breach 0")]
    [InlineData("10:00:05", "breach 0")] // begun before the other ended
    public void The_rest_runs_from_the_end_of_one_pass_to_the_start_of_the_next(string second, string expected) => Assert.Equal(
        expected, Adult().Procedure("p1", "10:00:00", "10:00:10").Procedure("p2", second, "10:01:30").SaidByBoth("rest-between-passes-short"));

    [Fact]
    public void Where_the_end_of_the_pass_before_is_not_charted_no_rest_is_judged()
    {
        Assert.Equal("", Adult().Procedure("p1", "10:00:00").Procedure("p2", "10:00:20", "10:00:30").SaidByBoth("rest-between-passes-short"));
        Assert.Equal("", Adult().Pass("a", "10:00:00", (Concepts.PassDuration, Number(10, Unit.Second))).Pass("b", "10:00:20").SaidByBoth("rest-between-passes-short"));
    }

    [Fact]
    public void The_first_pass_of_a_session_has_no_rest_before_it() =>
        Assert.Equal("", Adult().Procedure("p1", "10:00:00", "10:00:10").SaidByBoth("rest-between-passes-short"));

    [Fact]
    public void A_short_rest_is_low_and_names_both_passes()
    {
        var rest = Adult().Procedure("p1", "10:00:00", "10:00:10").Procedure("p2", "10:00:20", "10:00:30").Judge().Only("rest-between-passes-short");

        Assert.Equal((Severity.Low, At("10:00:20")), (rest.Latest.Severity, rest.First.At));
        Assert.Equal(2, rest.Latest.Anchors.Select(anchor => anchor.Row).Concat(rest.Latest.Evidence.Select(item => item.Row)).Distinct().Count());
    }

    // At least 8 h: Auckland and Starship.
    [Theory]
    [InlineData("02:00", "")]
    [InlineData("02:06", "breach 7.9")]
    [InlineData("10:00", "breach 0")]
    [InlineData("10:01", "")] // given after the pass
    public void A_neonate_is_not_suctioned_within_eight_hours_of_surfactant(string given, string expected) => Assert.Equal(
        expected, Neonate().Row("x", Concepts.SurfactantGiven, given, FactValue.Yes).Pass("s", "10:00").SaidByBoth("suction-soon-after-surfactant"));

    [Fact]
    public void Surfactant_is_asked_of_neonates_only_and_counts_only_where_it_was_given()
    {
        Assert.Equal("", Infant().Row("x", Concepts.SurfactantGiven, "09:00", FactValue.Yes).Pass("s", "10:00").SaidByBoth("suction-soon-after-surfactant"));
        Assert.Equal("", Neonate().Row("x", Concepts.SurfactantGiven, "09:00", FactValue.No).Pass("s", "10:00").SaidByBoth("suction-soon-after-surfactant"));
        Assert.Equal("breach 7", Neonate().Row("x", Concepts.SurfactantGiven, "03:00", FactValue.Yes).Row("y", Concepts.SurfactantGiven, "09:00", FactValue.No)
            .Pass("s", "10:00").SaidByBoth("suction-soon-after-surfactant"));
    }

    [Fact]
    public void Surfactant_without_a_birth_date_is_judged_only_where_the_strictest_band_is_asked_for()
    {
        var chart = new ChartBuilder().Row("x", Concepts.SurfactantGiven, "09:00", FactValue.Yes).Pass("s", "10:00");

        Assert.Equal("open BirthDate", chart.SaidByBoth("suction-soon-after-surfactant"));
        Assert.Equal("breach 1", chart.SaidByBoth("suction-soon-after-surfactant", UnknownAge.StrictestBand));
    }
}
