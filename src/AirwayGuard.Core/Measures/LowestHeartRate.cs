using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Lowest heart rate per minute from the start of a pass to five minutes after it.</summary>
public static class LowestHeartRate
{
    public static readonly Measure Measure = new(
        "heart-rate-lowest", Dimension.Rate, Unit.PerMinute, [SubjectKind.Pass],
        [Concepts.HeartRate, Concepts.SuctionReaction, Concepts.PassDuration],
        TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(10), [], MayBeMissing: false,
        "lowest heart rate from the start of the pass to five minutes after it",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var fact = AroundPass.Lowest(timeline, Concepts.HeartRate, pass.From, PassTimes.After(timeline, care, pass), atStart: true);
        if (fact < 0)
        {
            // Who charted the reaction has answered; else nobody can tell.
            result.Missing = AroundPass.HasReaction(timeline, care, pass) ? Missing.Nothing : Missing.HeartRate;
            return;
        }

        AroundPass.Tell(timeline, fact, timeline.Facts[fact].Value.Amount, Unit.PerMinute, ref result);
    }
}
