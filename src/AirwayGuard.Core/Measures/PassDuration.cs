using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Seconds from insertion to removal.</summary>
public static class PassDuration
{
    public static readonly Measure Measure = new(
        "pass-duration", Dimension.Duration, Unit.Second, [SubjectKind.Pass],
        [Concepts.PassDuration, Concepts.PassCount, Concepts.SuctionPass],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: true,
        "seconds from insertion to removal of the catheter",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
