using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Time since a tracheal tube in use was last assessed; no shipped rule judges it.</summary>
public static class TrachealTubeAssessmentAge
{
    public static readonly Measure Measure = new(
        "time-since-tracheal-tube-assessed", Dimension.Duration, Unit.Hour, [SubjectKind.Due],
        [Concepts.AirwayAssessed, Concepts.SuctionIndication, Concepts.SuctionPass, Concepts.AirwayType],
        TimeSpan.FromDays(2), TimeSpan.Zero, [], MayBeMissing: false,
        "time since a tracheal tube was last assessed: an assessment, a pass with an indication, or the start of the episode",
        DueTimes.Elapsed)
    {
        Runs = static (in timeline, care, into) => AssessmentRuns.List(timeline, care, Answers.TrachealTube, into),
    };
}
