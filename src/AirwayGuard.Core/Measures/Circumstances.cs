using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Circumstances: true from when they are charted until charted false or the encounter of the row ends; not charted counts as
/// absent, and the finding says so. One charted so that it cannot be read is neither: unless it held already, nobody can tell.
/// </summary>
internal static class Circumstances
{
    /// <summary>Sets yes or no; or, where what was charted last cannot be read and none held before, what is missing.</summary>
    public static void Take(Concept concept, in Subject subject, in Timeline timeline, ref Measured result)
    {
        var at = subject.From;
        var facts = timeline.Of(concept);
        var unread = -1;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.About != timeline.Patient)
            {
                continue;
            }

            if (fact.Value.Kind is not (ValueKind.Yes or ValueKind.No))
            {
                unread = unread < 0 && !HasEnded(timeline, fact, at) ? i : unread;
                continue;
            }

            var holds = fact.Value.Kind == ValueKind.Yes && !HasEnded(timeline, fact, at);
            // What holds does so until it is charted false, and of one instant what can be read counts.
            if (holds || unread < 0 || facts[unread].EffectiveFrom == fact.EffectiveFrom)
            {
                result.Uses(timeline.FirstOf(concept) + i);
                result.Set(holds ? "yes" : "no");
                return;
            }

            break;
        }

        if (unread < 0)
        {
            result.Set("no");
            return;
        }

        result.Uses(timeline.FirstOf(concept) + unread);
        result.Missing = LackOf(concept);
    }

    /// <summary>Whether what is missing is a circumstance, charted in a way that cannot be read.</summary>
    public static bool IsOne(Missing missing) => missing is Missing.IntracranialPressureMonitored or Missing.LungInjury
        or Missing.BleedingRisk or Missing.HyperoxygenationContraindicated;

    private static Missing LackOf(Concept concept) =>
        concept == Concepts.IntracranialPressureMonitored ? Missing.IntracranialPressureMonitored
        : concept == Concepts.LungInjury ? Missing.LungInjury
        : concept == Concepts.BleedingRisk ? Missing.BleedingRisk
        : Missing.HyperoxygenationContraindicated;

    private static bool HasEnded(in Timeline timeline, in Fact fact, long at)
    {
        if (fact.EffectiveTo != fact.EffectiveFrom && fact.EffectiveTo < at)
        {
            return true;
        }

        foreach (ref readonly var period in timeline.Of(Concepts.EncounterPeriod))
        {
            if (period.About == fact.Encounter && period.EffectiveTo <= at)
            {
                return true;
            }
        }

        return false;
    }
}
