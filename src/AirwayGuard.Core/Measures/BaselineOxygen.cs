using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Inspired oxygen a pass starts from: the latest from 4 h to 3 min before it, outside any charted pre-oxygenation; at one
/// instant a setting before a measurement (common practice, no source). Of several that contradict each other at one instant the
/// lowest, so that no rise hides; where much oxygen is itself the question, the highest.
/// </summary>
internal static class BaselineOxygen
{
    /// <summary>Oxygen of this share, just before a pass, counts as pre-oxygenation.</summary>
    private const decimal Full = 0.99m;

    /// <returns>Index of the fact; −1 where none is charted.</returns>
    public static int Of(in Timeline timeline, Care care, long start) =>
        Latest(timeline, care, start - CareTimes.BaselineBefore, start - CareTimes.OxygenHolds, -1, false);

    /// <summary>As <see cref="Of"/>, but full oxygen just before an earlier pass of the session was its pre-oxygenation and is no baseline.</summary>
    public static int Before(in Timeline timeline, Care care, int pass, bool highest = false)
    {
        var start = care.Passes[pass].From;
        return Latest(timeline, care, start - CareTimes.BaselineBefore, start - CareTimes.OxygenHolds, care.Passes[pass].Session, highest);
    }

    /// <summary>The latest inspired oxygen at a time, at most 4 h old.</summary>
    public static int At(in Timeline timeline, Care care, long at, bool highest = false) =>
        Latest(timeline, care, at, at - CareTimes.OxygenHolds, -1, highest);

    /// <summary>Within a charted pre-oxygenation, or full oxygen within two minutes before a pass.</summary>
    public static bool IsPreoxygenation(in Timeline timeline, Care care, in Fact oxygen) =>
        IsWithinPreoxygenation(timeline, oxygen.EffectiveFrom) || IsFullBeforeAPass(oxygen, care, -1);

    private static int Latest(in Timeline timeline, Care care, long notAfter, long notBefore, int session, bool highest)
    {
        var facts = timeline.Of(Concepts.Fio2);
        var (best, share) = (-1, 0m);
        for (var i = Timeline.FirstAfter(facts, notAfter) - 1; i >= 0; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.EffectiveFrom < notBefore || (best >= 0 && fact.EffectiveFrom < facts[best].EffectiveFrom))
            {
                break;
            }

            if (fact.About != timeline.Patient || !fact.Value.IsNumber || !Fractions.TryInspiredOxygen(fact.Value.Amount, out var fraction)
                || IsWithinPreoxygenation(timeline, fact.EffectiveFrom) || (session >= 0 && IsFullBeforeAPass(fact, care, session)))
            {
                continue;
            }

            var isSetting = fact.Has(FactMarks.Setting);
            if (best < 0 || (isSetting != facts[best].Has(FactMarks.Setting) ? isSetting : highest ? fraction > share : fraction < share))
            {
                (best, share) = (i, fraction);
            }
        }

        return best < 0 ? -1 : timeline.FirstOf(Concepts.Fio2) + best;
    }

    /// <param name="session">Only passes of this session; −1 for all.</param>
    private static bool IsFullBeforeAPass(in Fact oxygen, Care care, int session)
    {
        if (!oxygen.Value.IsNumber || !Fractions.TryInspiredOxygen(oxygen.Value.Amount, out var fraction) || fraction < Full)
        {
            return false;
        }

        for (var i = care.PassesUntil(oxygen.EffectiveFrom - 1); i < care.Passes.Length; i++)
        {
            ref readonly var pass = ref care.Passes[i];
            if (pass.From > oxygen.EffectiveFrom + CareTimes.PreoxygenationBefore)
            {
                return false;
            }

            if (session < 0 || pass.Session == session)
            {
                return true;
            }
        }

        return false;
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
