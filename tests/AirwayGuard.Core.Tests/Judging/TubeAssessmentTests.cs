using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A site's check of tracheal tubes in place of the shipped one of tracheostomies.</summary>
public sealed class TubeAssessmentTests
{
    private const string Check = "airway-assessment-overdue";
    private static readonly RuleSet Site = SiteRules.Strict(Check, "time-since-tracheostomy-assessed", "time-since-tracheal-tube-assessed");

    [Theory]
    [InlineData("tracheal-tube", "10:00", "")]
    [InlineData("tracheal-tube", "10:01", "breach 2")]
    [InlineData("tracheostomy-tube", "10:01", "")]
    public void Only_a_tracheal_tube_is_told_once_two_hours_are_over(string kind, string asOf, string said) =>
        Assert.Equal(said, Adult().Row("t", Concepts.AirwayType, "08:00", Answer(kind)).Judge(Site, asOf).Said(Check));

    // Due at 23:30 UTC of the 28th day of life, or half past four of the 29th where the tube was put in.
    [Theory]
    [InlineData("21:30", AgeBand.Neonate)]
    [InlineData("2 02:30+05:00", AgeBand.Infant)]
    public void Time_that_runs_from_the_tube_falls_due_at_the_tubes_own_offset(string placed, AgeBand band) =>
        Assert.Equal(band, new ChartBuilder().Born(2026, 2, 1).Row("t", Concepts.AirwayType, placed, Answer("tracheal-tube")).Judge(Site, "2 01:00").Only(Check).Latest.Band);
}
