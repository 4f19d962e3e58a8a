using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Inspired oxygen a pass starts from: the latest from 4 h to 3 min before it, outside any charted pre-oxygenation; at one
/// instant a setting before a measurement (common practice, no source).
/// </summary>
internal static class BaselineOxygen
{
    /// <returns>Index of the fact; −1 where none is charted.</returns>
    public static int Of(in Timeline timeline, Care care, long start)
    {
        var facts = timeline.Of(Concepts.Fio2);
        var best = -1;
        for (var i = Timeline.FirstAfter(facts, start - CareTimes.BaselineBefore) - 1; i >= 0; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.EffectiveFrom < start - CareTimes.OxygenHolds || (best >= 0 && fact.EffectiveFrom < facts[best].EffectiveFrom))
            {
                break;
            }

            if (fact.About != timeline.Patient || !fact.Value.IsNumber || IsWithinPreoxygenation(timeline, fact.EffectiveFrom))
            {
                continue;
            }

            best = best < 0 || (fact.Has(FactMarks.Setting) && !facts[best].Has(FactMarks.Setting)) ? i : best;
        }

        return best < 0 ? -1 : timeline.FirstOf(Concepts.Fio2) + best;
    }

    private static bool IsWithinPreoxygenation(in Timeline timeline, long at)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.Preoxygenation))
        {
            if (fact.About == timeline.Patient && fact.Value.Kind is not (ValueKind.No or ValueKind.NotPerformed)
                && fact.EffectiveFrom <= at && at <= fact.EffectiveTo)
            {
                return true;
            }
        }

        return false;
    }
}
