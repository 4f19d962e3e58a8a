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

/// <summary>preoxygenation-short, neonate-over-oxygenated and oxygen-not-returned.</summary>
public sealed class OxygenChecksTests
{
    private const string Short = "preoxygenation-short", Over = "neonate-over-oxygenated", NotBack = "oxygen-not-returned";

    // 30 to 60 s: AARC 2010, body, from memory.
    [Theory]
    [InlineData("09:59:30", "10:00:00", "")]
    [InlineData("09:59:31", "10:00:00", "breach 29")]
    [InlineData("09:59:50", "10:01:00", "breach 10")] // what lies after the start is not before it
    [InlineData("09:57:00", "09:57:20", "")] // over before the two minutes: not this pass's
    [InlineData("09:57:50", "09:58:00", "breach 10")]
    public void A_period_of_preoxygenation_is_judged_by_what_lies_before_the_pass(string from, string to, string expected) => Assert.Equal(
        expected, Adult().Row("o", Concepts.Preoxygenation, from, FactValue.Yes, to).Pass("s", "10:00").SaidByBoth(Short));

    [Theory]
    [InlineData(30, Unit.Second, "")]
    [InlineData(29, Unit.Second, "breach 29")]
    [InlineData(0.5, Unit.Minute, "")]
    public void A_charted_length_is_judged_in_seconds(double length, Unit unit, string expected) => Assert.Equal(
        expected, Adult().Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number((decimal)length, unit))).SaidByBoth(Short));

    [Fact]
    public void Of_period_and_charted_length_the_shorter_counts() => Assert.Equal("breach 20", Adult()
        .Row("o", Concepts.Preoxygenation, "09:59:00", Number(100, Unit.Percent), "10:00:00")
        .Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number(20, Unit.Second))).SaidByBoth(Short));

    [Fact]
    public void Of_two_periods_the_longer_counts() => Assert.Equal("", Adult()
        .Row("o1", Concepts.Preoxygenation, "09:58:00", FactValue.Yes, "09:59:00").Row("o2", Concepts.Preoxygenation, "09:59:50", FactValue.Yes, "10:00:00")
        .Pass("s", "10:00").SaidByBoth(Short));

    [Fact]
    public void Preoxygenation_without_period_or_length_is_not_judged_by_length() =>
        Assert.Equal("", Adult().Pass("s", "10:00", (Concepts.Preoxygenation, FactValue.Yes)).SaidByBoth(Short));

    // Charted with the pass's own row it has that row's period, which is how long the suction took.
    [Fact]
    public void The_period_of_the_pass_itself_is_not_that_of_the_oxygen()
    {
        Assert.Equal("", Adult().Row("s", "10:00:00", "10:00:10", null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.Preoxygenation, FactValue.Yes)).SaidByBoth(Short));
        Assert.Equal("", Adult().Row(
            "s", "10:00:00", "10:00:10", null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.Preoxygenation, Number(100, Unit.Percent)),
            (Concepts.PreoxygenationDuration, Number(60, Unit.Second))).SaidByBoth(Short));
    }

    [Fact]
    public void Too_short_before_the_first_pass_is_too_short_for_its_session()
    {
        var chart = Adult().Pass("s1", "10:00", (Concepts.PreoxygenationDuration, Number(20, Unit.Second))).Pass("s2", "10:03");
        Assert.Equal("breach 20, breach 20", chart.SaidByBoth(Short));

        Assert.Equal("breach 20", Adult().Pass("s1", "10:00", (Concepts.PreoxygenationDuration, Number(20, Unit.Second)))
            .Pass("s2", "10:03", (Concepts.PreoxygenationDuration, Number(40, Unit.Second))).SaidByBoth(Short));
    }

    [Fact]
    public void The_length_is_asked_of_children_and_adults_only()
    {
        Assert.Equal("", Neonate().Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number(5, Unit.Second))).SaidByBoth(Short));
        Assert.Equal("", Infant().Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number(5, Unit.Second))).SaidByBoth(Short));
        Assert.Equal("breach 5", new ChartBuilder().Born(2019, 1, 1).Pass("s", "10:00", (Concepts.PreoxygenationDuration, Number(5, Unit.Second))).SaidByBoth(Short));
    }

    // At most 0.10 over the baseline: Iowa.
    [Theory]
    [InlineData("09:59", 40, "")]
    [InlineData("09:59", 41, "breach 0.11")]
    [InlineData("09:58", 41, "breach 0.11")] // two minutes before, inclusive
    [InlineData("09:57:59", 41, "")]
    [InlineData("10:00:10", 41, "breach 0.11")] // to the end, inclusive
    [InlineData("10:00:11", 41, "")]
    public void A_neonates_oxygen_is_raised_by_a_tenth_at_most(string at, int percent, string expected) => Assert.Equal(
        expected, Neonate().Oxygen("09:00", 30).Oxygen(at, percent).Procedure("p", "10:00:00", "10:00:10").SaidByBoth(Over));

    [Fact]
    public void Without_an_end_the_rise_is_looked_for_to_the_start_only() =>
        Assert.Equal("", Neonate().Oxygen("09:00", 30).Oxygen("10:00:05", 60).Pass("s", "10:00").SaidByBoth(Over));

    [Fact]
    public void A_rise_is_high_and_preoxygenation_counts_as_oxygen()
    {
        var rise = Neonate().Oxygen("09:00", 30).Oxygen("09:59", 35).Row("o", Concepts.Preoxygenation, "09:59", Number(50, Unit.Percent), "09:59:40")
            .Pass("s", "10:00").Judge().Only(Over);

        Assert.Equal((Severity.High, 0.20m), (rise.Latest.Severity, rise.Latest.Value));
        Assert.Equal(2, rise.Latest.Evidence.Length);
    }

    [Fact]
    public void Without_a_baseline_or_without_a_number_a_rise_cannot_be_told()
    {
        Assert.Equal("open BaselineOxygen", Neonate().Oxygen("09:59", 60).Pass("s", "10:00").SaidByBoth(Over));
        Assert.Equal("open BaselineOxygen", Neonate().Oxygen("05:59", 30).Oxygen("09:59", 60).Pass("s", "10:00").SaidByBoth(Over));
        Assert.Equal("open OxygenGiven", Neonate().Oxygen("09:00", 30).Pass("s", "10:00", (Concepts.Preoxygenation, FactValue.Yes)).SaidByBoth(Over));
    }

    [Fact]
    public void Others_than_neonates_are_not_asked_for_a_rise()
    {
        Assert.Equal("", Infant().Oxygen("09:00", 30).Oxygen("09:59", 100).Pass("s", "10:00").SaidByBoth(Over));
        Assert.Equal("", Adult().Oxygen("09:00", 30).Oxygen("09:59", 100).Pass("s", "10:00").SaidByBoth(Over));
    }

    [Theory]
    [InlineData(40, "08:00", "")]
    [InlineData(45, "08:00", "breach 0.15")]
    [InlineData(45, "05:00", "breach 0.15")] // four hours old, inclusive
    [InlineData(45, "04:59", "open BaselineOxygen")]
    public void An_order_is_held_to_the_latest_oxygen(int ordered, string charted, string expected) => Assert.Equal(
        expected, Neonate().Oxygen(charted, 30).Order("a", "09:00", "active", (Concepts.Preoxygenation, Number(ordered, Unit.Percent))).SaidByBoth(Over));

    [Fact]
    public void An_order_that_states_no_percentage_is_not_judged_by_one() => Assert.Equal(
        "", Neonate().Order("a", "09:00", "active", (Concepts.Preoxygenation, FactValue.Yes)).SaidByBoth(Over));

    // Back in 10 min, of a neonate 5.
    [Theory]
    [InlineData(1961, "10:10", 60, "open OxygenAfterwards")] // not later than ten minutes
    [InlineData(1961, "10:10:30", 60, "breach 10.5")]
    [InlineData(1961, "10:15", 42, "")] // 0.02 over is not raised
    [InlineData(1961, "10:15", 43, "breach 15")]
    [InlineData(1961, "12:00", 60, "breach 120")]
    [InlineData(1961, "12:00:01", 60, "open OxygenAfterwards")]
    [InlineData(2026, "10:05", 60, "open OxygenAfterwards")]
    [InlineData(2026, "10:06", 60, "breach 6")]
    public void Oxygen_is_back_ten_minutes_after_suction_or_five_in_a_neonate(int born, string at, int percent, string expected) => Assert.Equal(
        expected, new ChartBuilder().Born(born, 2, 20).Oxygen("09:00", 40).Pass("s", "10:00").Oxygen(at, percent).SaidByBoth(NotBack));

    [Fact]
    public void Back_within_the_minutes_is_known_only_from_a_row_after_them()
    {
        Assert.Equal("open OxygenAfterwards", Adult().Oxygen("09:00", 40).Pass("s", "10:00").Oxygen("10:05", 40).SaidByBoth(NotBack));
        Assert.Equal("", Adult().Oxygen("09:00", 40).Pass("s", "10:00").Oxygen("10:05", 60).Oxygen("10:11", 40).SaidByBoth(NotBack));
    }

    [Fact]
    public void It_falls_due_at_the_tenth_minute_and_ends_when_oxygen_is_back()
    {
        var chart = Adult().Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Oxygen("09:00", 40).Pass("s", "10:00").Oxygen("10:12", 60).Oxygen("10:20", 50);
        var open = chart.Judge().Only(NotBack);
        Assert.Equal((FindingState.Open, At("10:10"), 20m, Severity.Moderate), (open.State, open.First.At, open.Latest.Value, open.Latest.Severity));

        var cleared = chart.Oxygen("13:00", 40).Judge().Only(NotBack);
        Assert.Equal((FindingState.Cleared, At("13:00"), open.Flag), (cleared.State, cleared.EndedAt, cleared.Flag));
    }

    // The first session began at 80 %, the second at 36 %: 40 % is back for the first alone.
    [Fact]
    public void Oxygen_back_where_the_first_session_began_does_not_end_what_the_second_left_raised()
    {
        var chart = Adult().Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Oxygen("09:00", 80).Pass("s1", "10:07").Oxygen("10:05", 36)
            .Pass("s2", "10:23").Oxygen("10:50", 98).Oxygen("11:00", 40);
        var open = chart.Judge().Only(NotBack);
        Assert.Equal((FindingState.Open, 2), (open.State, open.Occurrences.Length));

        var cleared = chart.Oxygen("11:10", 38).Judge().Only(NotBack);
        Assert.Equal((FindingState.Cleared, At("11:10")), (cleared.State, cleared.EndedAt));
    }

    [Fact]
    public void The_minutes_run_from_the_end_of_the_sessions_last_pass()
    {
        Assert.Equal("open OxygenAfterwards", Adult().Oxygen("09:00", 40).Pass("s1", "10:00").Procedure("p2", "10:04:00", "10:05:00").Oxygen("10:15", 60).SaidByBoth(NotBack));
        Assert.Equal("breach 11", Adult().Oxygen("09:00", 40).Pass("s1", "10:00").Procedure("p2", "10:04:00", "10:05:00").Oxygen("10:16", 60).SaidByBoth(NotBack));
    }

    // Without an end: "windows after a pass run from its start plus pass-duration (else its start)".
    [Theory]
    [InlineData(60, "10:11:00", "open OxygenAfterwards")]
    [InlineData(60, "10:11:01", "breach 10.017")]
    [InlineData(1e15, "2 10:11", "breach 11")] // a number nobody meant ends no judging
    public void A_charted_duration_moves_the_minutes(double seconds, string at, string expected) => Assert.Equal(
        expected, Adult().Oxygen("09:00", 40).Pass("s", "10:00", (Concepts.PassDuration, Number((decimal)seconds, Unit.Second))).Oxygen(at, 60).SaidByBoth(NotBack));

    [Fact]
    public void Where_nothing_is_charted_after_the_pass_two_hours_are_left_for_it()
    {
        var chart = Adult().Oxygen("09:00", 40).Pass("s", "10:00");

        Assert.Equal("", chart.Judge(asOf: "11:59").Said(NotBack));
        Assert.Contains(chart.Judge(asOf: "11:59").Due, due => due.Check == NotBack && due.At == At("12:00"));
        Assert.Equal("open OxygenAfterwards", chart.Judge(asOf: "12:00").Said(NotBack));
    }

    [Fact]
    public void Without_a_baseline_nobody_can_tell_whether_it_is_back() =>
        Assert.Equal("open BaselineOxygen", Adult().Pass("s", "10:00").Oxygen("10:15", 60).SaidByBoth(NotBack));
}
