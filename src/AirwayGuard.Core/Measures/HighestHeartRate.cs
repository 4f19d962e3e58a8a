using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Highest heart rate per minute from the start of a pass to five minutes after it.</summary>
public static class HighestHeartRate
{
    public static readonly Measure Measure = new(
        "heart-rate-highest", Dimension.Rate, Unit.PerMinute, [SubjectKind.Pass],
        [Concepts.HeartRate, Concepts.SuctionReaction, Concepts.PassDuration],
        TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(10), [], MayBeMissing: false,
        "highest heart rate from the start of the pass to five minutes after it",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var fact = AroundPass.Highest(timeline, Concepts.HeartRate, pass.From, PassTimes.After(timeline, care, pass), atStart: true);
        if (fact < 0)
        {
            return;
        }

        AroundPass.Tell(timeline, fact, timeline.Facts[fact].Value.Amount, Unit.PerMinute, ref result);
    }
}
