using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A site's interval for reading an outlet's whole vacuum, here a day.</summary>
public sealed class WallSurveyIntervalTests
{
    private const string Check = "wall-supply-unsurveyed";
    private static readonly RuleSet Daily = SiteRules.Strict(Check, "all: site-sets", "all: { limit: 1 d, source: common-practice, status: common-practice }");

    [Theory]
    [InlineData("2 10:00", "breach 1")] // at its last instant
    [InlineData("2 10:01", "cleared 1, breach 1")]
    public void The_next_reading_in_time_begins_anew(string second, string said)
    {
        var chart = new ChartBuilder();
        var outlet = chart.Entities.Intern(EntityKind.Device, "Device/outlet");
        using var lease = chart
            .Row("first", Concepts.FullLineVacuum, "10:00", Number(400, Unit.MmHg), about: "outlet")
            .Row("second", Concepts.FullLineVacuum, second, Number(400, Unit.MmHg), about: "outlet")
            .Load(outlet);

        Assert.Equal(said, new PatientJudge(Daily, chart.Entities).Judge(lease.View, new JudgeSettings(At("28 00:00"), true, UnknownAge.CannotTell)).Said(Check));
    }
}
