using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether intracranial pressure is monitored; not charted counts as no.</summary>
public static class IntracranialPressureMonitored
{
    public static readonly Measure Measure = new(
        "intracranial-pressure-monitored", Dimension.YesNo, Unit.None, [SubjectKind.Pass, SubjectKind.Session, SubjectKind.Setting, SubjectKind.Order],
        [Concepts.IntracranialPressureMonitored],
        TimeSpan.FromDays(400), TimeSpan.Zero, ["yes", "no"], MayBeMissing: false,
        "intracranial pressure is monitored",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result) =>
        Circumstances.Take(Concepts.IntracranialPressureMonitored, subject, timeline, ref result);
}
