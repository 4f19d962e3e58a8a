using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>vacuum-not-checked-before-pass, and the age of a reading.</summary>
public sealed class VacuumBeforePassTests
{
    private const string Check = "vacuum-not-checked-before-pass";

    // Fifteen minutes: from memory.
    [Theory]
    [InlineData("09:44:59", null, true)]
    [InlineData("09:45", null, false)]
    [InlineData("10:00", null, false)]
    [InlineData("10:00:01", null, true)]
    [InlineData("09:50", "occluded", false)]
    [InlineData("09:50", "flowing", true)]
    [InlineData("09:50", "unknown", true)]
    public void A_reading_counts_in_the_quarter_hour_before_a_pass(string at, string? method, bool breaches)
    {
        var chart = method is null
            ? Chart().Row("v", Concepts.VacuumPressure, at, Number(100, Unit.MmHg))
            : Chart().Row("v", at, null, null, null, null, null, (Concepts.VacuumPressure, Number(100, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer(method)));

        Assert.Equal(breaches, Of(chart.Procedure("sx", "10:00").Judge()).Length == 1);
    }

    [Fact]
    public void The_passs_own_column_counts_though_it_stands_after_the_start() => Assert.Empty(Of(
        Chart().Procedure("sx", "10:00", "10:00:12").Row("v", Concepts.VacuumPressure, "10:00:10", Number(100, Unit.MmHg), act: "sx").Judge()));

    [Theory]
    [InlineData("09:55", 120, true)]
    [InlineData("09:55", 100, false)] // set to what it was
    [InlineData("09:50", 120, false)] // changed when it was read
    public void A_reading_older_than_a_change_of_the_set_value_does_not_count(string changedAt, int to, bool breaches) => Assert.Equal(breaches, Of(
        Chart().Row("s1", Concepts.VacuumSet, "08:00", Number(100, Unit.MmHg)).Row("v", Concepts.VacuumPressure, "09:50", Number(100, Unit.MmHg))
            .Row("s2", Concepts.VacuumSet, changedAt, Number(to, Unit.MmHg)).Procedure("sx", "10:00").Judge()).Length == 1);

    [Theory]
    [InlineData("intermittent", true)]
    [InlineData("regulated", false)]
    public void A_reading_older_than_a_change_of_mode_does_not_count(string mode, bool breaches) => Assert.Equal(breaches, Of(
        Chart().Row("m1", Concepts.RegulatorMode, "08:00", Answer("regulated")).Row("v", Concepts.VacuumPressure, "09:50", Number(100, Unit.MmHg))
            .Row("m2", Concepts.RegulatorMode, "09:55", Answer(mode)).Procedure("sx", "10:00").Judge()).Length == 1);

    [Theory]
    [InlineData("r1", false)]
    [InlineData("r2", true)]
    [InlineData(null, false)] // names none: it speaks of the one in use
    public void A_reading_of_another_regulator_does_not_count(string? device, bool breaches) => Assert.Equal(breaches, Of(
        Chart().Device("r1", "vacuum-regulator").Device("r2", "vacuum-regulator")
            .Row("v", Concepts.VacuumPressure, "09:50", Number(100, Unit.MmHg), device: device).Procedure("sx", "10:00", uses: ["r1"]).Judge()).Length == 1);

    [Fact]
    public void A_set_value_is_no_reading()
    {
        var chart = Chart().Device("reg", "vacuum-regulator").Metric("set", "reg", "setting")
            .Row("v", Concepts.VacuumPressure, "09:50", Number(100, Unit.MmHg), device: "DeviceMetric/set").Procedure("sx", "10:00", uses: ["reg"]);

        Assert.Single(Of(chart.Judge()));
    }

    // A gauge at 0, or one of a regulator that is off, shows no vacuum.
    [Theory]
    [InlineData(0, null)]
    [InlineData(0, "regulated")]
    [InlineData(100, "off")]
    public void A_reading_of_nothing_is_no_check(int reading, string? mode)
    {
        var chart = mode is null ? Chart() : Chart().Row("m", Concepts.RegulatorMode, "09:00", Answer(mode));

        Assert.Equal("breach missing", chart.Row("v", Concepts.VacuumPressure, "09:50", Number(reading, Unit.MmHg)).Procedure("sx", "10:00").Judge().Said(Check));
    }

    [Fact]
    public void One_taken_once_it_was_on_again_is() => Assert.Equal("", Chart().Row("m", Concepts.RegulatorMode, "09:00", Answer("off"))
        .Row("n", Concepts.RegulatorMode, "09:40", Answer("regulated")).Row("v", Concepts.VacuumPressure, "09:50", Number(100, Unit.MmHg)).Procedure("sx", "10:00").Judge().Said(Check));

    [Theory]
    [InlineData(10, Unit.MmHg)]
    [InlineData(800, Unit.MmHg)]
    [InlineData(100, Unit.None)]
    public void A_reading_whose_unit_is_doubtful_leaves_it_open(int reading, Unit unit)
    {
        var chart = Chart().Row("v", Concepts.VacuumPressure, "09:50", Number(reading, unit)).Procedure("sx", "10:00");

        Assert.Equal("open VacuumUnit", chart.Judge().Said(Check));
        Assert.Equal("", chart.Row("w", Concepts.VacuumPressure, "09:52", Number(100, Unit.MmHg)).Judge().Said(Check));
    }

    [Fact]
    public void So_does_one_that_cannot_be_read() => Assert.Equal(
        "open VacuumValue", Chart().Row("v", Concepts.VacuumPressure, "09:50", FactValue.Unreadable).Procedure("sx", "10:00").Judge().Said(Check));

    [Fact]
    public void It_waits_two_hours_for_a_reading_charted_late()
    {
        var chart = Chart().Procedure("sx", "10:00");

        Assert.Empty(Of(chart.Judge(asOf: "11:59")));
        Assert.Equal(FindingState.Open, Of(chart.Judge(asOf: "12:00")).Single().State);
    }

    [Fact]
    public void It_stands_on_the_episode_and_ends_with_a_later_pass_that_has_a_reading()
    {
        var chart = Chart().Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Procedure("s1", "10:00").Procedure("s2", "11:00");
        var open = Of(chart.Judge()).Single();
        Assert.Equal((2, FindingState.Open), (open.Occurrences.Length, open.State));

        var cleared = Of(chart.Procedure("s3", "12:00").Row("v", Concepts.VacuumPressure, "11:58", Number(100, Unit.MmHg)).Judge()).Single();
        Assert.Equal((FindingState.Cleared, At("12:00"), open.Flag), (cleared.State, cleared.EndedAt, cleared.Flag));
    }

    [Fact]
    public void A_set_value_streamed_by_the_regulator_does_not_keep_a_reading_fresh()
    {
        var found = Chart().Row("a", Concepts.AirwayType, "06:00", Answer("tracheal-tube")).Device("reg", "vacuum-regulator").Metric("set", "reg", "setting")
            .Row("v", Concepts.VacuumPressure, "07:00", Number(100, Unit.MmHg))
            .Row("t", Concepts.VacuumPressure, "15:00", Number(100, Unit.MmHg), device: "DeviceMetric/set").Procedure("sx", "16:00").Judge(asOf: "20:00");

        Assert.Equal(At("19:00"), found.Findings.Single(one => one.Rule.Id == "vacuum-reading-stale").First.At);
    }

    private static DerivedFinding[] Of(DerivedFindings found) => [.. found.Findings.Where(finding => finding.Rule.Id == Check)];

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5).Encounter("e", "06:00");
}
