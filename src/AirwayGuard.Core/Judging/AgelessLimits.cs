using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>What can be judged without an age, since a circumstance that holds sets one limit for all ages.</summary>
internal static class AgelessLimits
{
    /// <param name="measured">Told the fact that makes the circumstance hold.</param>
    /// <param name="isWhole">It is the limit of every band that is possible; else only a breach of it is certain.</param>
    /// <returns>Null where no such circumstance holds, or a possible band is not judged.</returns>
    public static Limit? Of(
        in Timeline timeline, Care care, Rule rule, BandLimits limits, in BandChoice age, in Subject subject, ref Measured measured, out bool isWhole)
    {
        isWhole = false;
        if (rule.NeedsAge || age.IsFuture || Held(timeline, care, rule, subject, ref measured) is not { } held)
        {
            return null;
        }

        Limit? common = null;
        isWhole = true;
        for (var band = age.Youngest; band <= age.Oldest; band++)
        {
            if (limits.For(band) is not { } own)
            {
                return null;
            }

            var stricter = LimitCheck.Stricter(own, held);
            common ??= stricter;
            isWhole &= stricter.ComparesAs(common);
        }

        return isWhole ? common : held;
    }

    private static Limit? Held(in Timeline timeline, Care care, Rule rule, in Subject subject, ref Measured measured)
    {
        Limit? held = null;
        foreach (var circumstance in rule.Tighten)
        {
            if (circumstance.Limits is { AreOne: true } limits && limits.For(AgeBand.Adult) is { } tighter
                && Guards.Hold(circumstance.When, subject, timeline, care, ref measured, out _))
            {
                held = held is null ? tighter : LimitCheck.Stricter(held, tighter);
            }
        }

        return held;
    }
}
