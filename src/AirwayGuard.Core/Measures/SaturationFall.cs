using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Percentage points by which oxygen saturation fell with a pass: the last within five minutes before it, less the lowest until five
/// minutes after (Maggiore 2013).
/// </summary>
public static class SaturationFall
{
    public static readonly Measure Measure = new(
        "spo2-fall", Dimension.Fraction, Unit.Percent, [SubjectKind.Pass],
        [Concepts.Spo2, Concepts.SuctionReaction, Concepts.PassDuration],
        TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(10), [], MayBeMissing: false,
        "fall of oxygen saturation from the last value within five minutes before the pass to the lowest until five minutes after",
        Take)
    {
        IsDifferenceOfShares = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var pass = ref care.Passes[subject.Index];
        var lowest = AroundPass.Lowest(timeline, Concepts.Spo2, pass.From, PassTimes.After(timeline, care, pass), atStart: false);
        if (lowest < 0)
        {
            // Who charted the reaction has answered; else nobody can tell.
            result.Missing = AroundPass.HasReaction(timeline, care, pass) ? Missing.Nothing : Missing.SaturationAfter;
            return;
        }

        var before = AroundPass.Before(timeline, Concepts.Spo2, pass.From);
        if (before < 0)
        {
            result.Uses(lowest);
            result.Missing = Missing.SaturationBefore;
            return;
        }

        result.Uses(before);
        result.Uses(lowest);
        result.Charted = lowest;
        var (from, to) = (timeline.Facts[before].Value, timeline.Facts[lowest].Value);
        if (TryDifference(from.Comparator, to.Comparator, out var comparator))
        {
            result.Set(AroundPass.Percent(from) - AroundPass.Percent(to), Unit.Percent);
            result.Comparator = comparator;
        }
        else
        {
            result.Missing = Missing.ExactValue;
        }
    }

    // What bounds the earlier from above bounds the fall from above; what bounds the later from above bounds it from below.
    private static bool TryDifference(Comparator from, Comparator to, out Comparator fall)
    {
        var turned = Comparators.Mirrored(to);
        var isUp = from is Comparator.Above or Comparator.AtLeast;
        fall = from == Comparator.Exactly ? turned
            : turned == Comparator.Exactly ? from
            : from is Comparator.Above or Comparator.Below ? from
            : turned;
        return from == Comparator.Exactly || turned == Comparator.Exactly || isUp == (turned is Comparator.Above or Comparator.AtLeast);
    }
}
