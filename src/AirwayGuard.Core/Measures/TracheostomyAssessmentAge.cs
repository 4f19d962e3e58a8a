using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Time since a tracheostomy in use was last assessed.</summary>
public static class TracheostomyAssessmentAge
{
    public static readonly Measure Measure = new(
        "time-since-tracheostomy-assessed", Dimension.Duration, Unit.Hour, [SubjectKind.Due],
        [Concepts.AirwayAssessed, Concepts.SuctionIndication, Concepts.SuctionPass, Concepts.AirwayType],
        TimeSpan.FromDays(2), TimeSpan.Zero, [], MayBeMissing: false,
        "time since a tracheostomy was last assessed: an assessment, a pass with an indication, or the start of the episode",
        DueTimes.Elapsed)
    {
        Runs = static (in timeline, care, into) => AssessmentRuns.List(timeline, care, Answers.TracheostomyTube, into),
    };
}
