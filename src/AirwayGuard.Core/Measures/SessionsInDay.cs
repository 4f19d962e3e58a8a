using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Sessions of suction that began in the 24 hours up to and including the start of this one.</summary>
public static class SessionsInDay
{
    private const long Day = 24 * TimeSpan.TicksPerHour;

    public static readonly Measure Measure = new(
        "sessions-in-24-hours", Dimension.Count, Unit.Count, [SubjectKind.Session],
        [Concepts.SuctionPass],
        TimeSpan.FromHours(24), TimeSpan.Zero, [], MayBeMissing: false,
        "sessions of suction in 24 hours, this one included",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var count = 0;
        for (var i = subject.Index; i >= 0 && subject.From - care.Sessions[i].From < Day; i--)
        {
            count += care.Sessions[i].UseUnknown ? 0 : 1;
        }

        result.Set(count, Unit.Count);
    }
}
