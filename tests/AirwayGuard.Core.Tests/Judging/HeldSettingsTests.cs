using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A setting streamed by a device breaches only once it has stood as long as the rule says.</summary>
public sealed class HeldSettingsTests
{
    private const string Check = "vacuum-above-ceiling";

    // Held three minutes; over from 10:00 on.
    [Theory]
    [InlineData("10:02:59", 0)]
    [InlineData("10:03", 2)]
    [InlineData("10:10", 2)]
    public void A_streamed_setting_breaches_once_it_has_stood(string asOf, int occurrences)
    {
        var found = Streamed(("10:00", 300), ("10:02", 310)).JudgeWith(Check, Held, asOf);

        Assert.Equal(occurrences, Of(found).Sum(finding => finding.Occurrences.Length));
        Assert.Equal(occurrences == 0 ? [At("10:03"), At("10:03")] : [], found.Due.Where(due => due.Check == Check).Select(due => due.At));
        Assert.All(Of(found), finding => Assert.Equal(At("10:00"), finding.First.At));
    }

    [Theory]
    [InlineData("10:02:59", 0)]
    [InlineData("10:03", 1)]
    public void A_reading_within_the_limit_ends_the_time_it_stood(string within, int findings) =>
        Assert.Equal(findings, Of(Streamed(("10:00", 300), (within, 100), ("10:10", 100)).JudgeWith(Check, Held, "12:00")).Length);

    [Fact]
    public void Time_stood_begins_anew_after_a_reading_within_the_limit() =>
        Assert.Empty(Of(Streamed(("10:00", 300), ("10:02", 100), ("10:02:30", 300), ("10:05", 100)).JudgeWith(Check, Held, "12:00")));

    [Fact]
    public void A_row_charted_by_a_person_breaches_at_once() => Assert.Single(Of(
        new ChartBuilder().Born(1961, 4, 5).Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).JudgeWith(Check, Held, "10:01")));

    [Fact]
    public void A_row_about_the_device_itself_is_streamed()
    {
        var chart = new ChartBuilder().Born(1961, 4, 5).Device("reg", "vacuum-regulator").InUse("u", "reg", "08:00").Procedure("sx", "09:00", uses: ["reg"])
            .Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg), about: "reg");

        Assert.Empty(Of(chart.JudgeWith(Check, Held, "10:02")));
        Assert.Single(Of(chart.JudgeWith(Check, Held, "10:03")));
    }

    [Fact]
    public void Without_holds_a_streamed_setting_breaches_at_once() => Assert.Single(Of(Streamed(("10:00", 300)).Judge(asOf: "10:00")));

    private static Rule Held(Rule rule) => rule with { Holds = TimeSpan.FromMinutes(3) };

    private static DerivedFinding[] Of(DerivedFindings found) => [.. found.Findings.Where(finding => finding.Rule.Id == Check)];

    private static ChartBuilder Streamed(params (string At, int Amount)[] readings)
    {
        var chart = new ChartBuilder().Born(1961, 4, 5).Device("reg", "vacuum-regulator").Metric("gauge", "reg", "measurement");
        foreach (var (at, amount) in readings)
        {
            chart.Row("v" + at, Concepts.VacuumPressure, at, Number(amount, Unit.MmHg), device: "DeviceMetric/gauge");
        }

        return chart;
    }
}
