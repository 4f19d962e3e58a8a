using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Worker.Checking;
using Xunit;

namespace AirwayGuard.Host.Tests.DemoWard;

public class WardStoryTests
{
    private static readonly string[] Expected =
    [
        "blood-stained-secretions-trend Patient/alder-4 Open 1",
        "catheter-too-wide Patient/alder-3 Open 2",
        "pass-too-long Patient/alder-6 Open 1",
        "pass-too-long Patient/hazel-3 Open 1",
        "preoxygenation-missing Patient/rowan-2 Open 1",
        "regulator-on-full-line Patient/alder-1 Open 2",
        "suction-ordered-by-clock Patient/rowan-1 Open 1",
        "vacuum-above-ceiling Patient/alder-2 Cleared 1",
        "vacuum-above-ceiling Patient/hazel-1 Open 1",
        "vacuum-unit-doubtful Patient/rowan-3 Open 1",
    ];

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(-20_260_312)]
    public async Task The_ward_raises_what_its_stories_tell_and_nothing_else(int seed)
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, seed));
        Assert.Equal(Expected, WardJudging.Findings(report), StringComparer.Ordinal);
        Assert.False(report.Unreadable);
    }

    [Theory]
    [InlineData("2024-02-29T23:59:31+00:00")]
    [InlineData("2027-01-01T00:00:00+13:00")]
    public async Task The_stories_hold_whenever_the_ward_ends(string end)
    {
        var report = await WardJudging.Judge(WardPlan.Build(DateTimeOffset.Parse(end, System.Globalization.CultureInfo.InvariantCulture), 3));
        Assert.Equal(Expected, WardJudging.Findings(report), StringComparer.Ordinal);
    }

    [Fact]
    public async Task Judged_at_its_end_the_ward_raises_the_same_since_no_story_still_waits()
    {
        var report = await WardJudging.Judge(
            WardPlan.Build(WardJudging.End, 1), settings: new CheckSettings(WardJudging.End, UnknownAge.CannotTell));
        Assert.Equal(Expected, WardJudging.Findings(report), StringComparer.Ordinal);
        Assert.DoesNotContain(report.Problems, problem => problem.Code.Id != "AG2103");
    }

    [Fact]
    public async Task Corrections_withdraw_the_long_pass_that_was_none()
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1), WardPlan.Corrections(WardJudging.End, 1));
        Assert.Equal(
            Expected.Select(line => line.Replace("pass-too-long Patient/hazel-3 Open", "pass-too-long Patient/hazel-3 Withdrawn", StringComparison.Ordinal)),
            WardJudging.Findings(report),
            StringComparer.Ordinal);
    }

    [Fact]
    public async Task Only_the_vacuum_without_a_usable_unit_cannot_be_told()
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1));
        Assert.Equal(
            ["vacuum-above-ceiling Patient/rowan-3 vacuum unit that can be trusted x1", "vacuum-not-checked-before-pass Patient/rowan-3 vacuum unit that can be trusted x1"],
            report.CannotTell.Select(one => $"{one.CannotTell.Rule.Id} {one.Patient} {one.Missing} x{one.CannotTell.Count}").Order(StringComparer.Ordinal),
            StringComparer.Ordinal);
    }

    [Fact]
    public async Task The_unit_nobody_knows_is_the_only_problem()
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1));
        var only = Assert.Single(report.Problems);
        Assert.Equal("AG2103", only.Code.Id);
        Assert.StartsWith("Observation/rowan-3-", only.Where, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("alder", 6, 35)]
    [InlineData("rowan", 3, 18)]
    [InlineData("hazel", 3, 18)]
    public async Task Each_unit_has_passes_sessions_orders_and_settings_to_judge(string unit, int orders, int passes)
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1).Where(one => one.Id.Contains(unit, StringComparison.Ordinal)));
        Assert.Equal(orders, report.Judged.Orders);
        Assert.InRange(report.Judged.Passes, passes, 60);
        Assert.Equal(report.Judged.Passes, report.Judged.Sessions);
        Assert.True(report.Judged.Settings >= report.Judged.Passes);
    }

    [Fact]
    public async Task The_gastric_regulator_is_kept_and_not_judged()
    {
        var plan = WardPlan.Build(WardJudging.End, 1);
        var withoutUse = plan.Where(one => !one.Id.EndsWith(WardRow.SuctionUse, StringComparison.Ordinal));
        var with = await WardJudging.Judge(plan);
        var without = await WardJudging.Judge(withoutUse);
        Assert.DoesNotContain(with.Findings, one => one.Patient == "Patient/alder-5");
        Assert.Equal(8, without.Judged.Settings - with.Judged.Settings);
    }

    [Fact]
    public async Task The_high_vacuum_is_severe_and_ends_with_the_occluded_reading()
    {
        var report = await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1));
        var finding = Assert.Single(report.Findings, one => one.Patient == "Patient/alder-2");
        Assert.Equal((Severity.High, FindingState.Cleared, "220 mmHg"), (finding.Finding.Latest.Severity, finding.Finding.State, finding.Charted));
        Assert.False(finding.Finding.LineEnded);
    }
}
