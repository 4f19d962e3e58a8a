using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Lowest oxygen saturation from the start of a pass to five minutes after it. Where it had been as low before the pass began, the
/// pass did not bring it there.
/// </summary>
public static class SaturationNadir
{
    public static readonly Measure Measure = new(
        "spo2-nadir", Dimension.Fraction, Unit.Percent, [SubjectKind.Pass],
        [Concepts.Spo2, Concepts.PassDuration],
        TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(10), [], MayBeMissing: false,
        "lowest oxygen saturation until five minutes after the pass, unless it was over the same limit before",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var lowest = AroundPass.Lowest(timeline, Concepts.Spo2, pass.From, PassTimes.After(timeline, care, pass), atStart: false);
        if (lowest < 0)
        {
            return;
        }

        AroundPass.Tell(timeline, lowest, AroundPass.Percent(timeline.Facts[lowest].Value), Unit.Percent, ref result);
        var before = AroundPass.Before(timeline, Concepts.Spo2, pass.From);
        if (before >= 0)
        {
            result.Uses(before);
            result.Before = AroundPass.Percent(timeline.Facts[before].Value);
        }
    }
}
