using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Circumstances: true from when they are charted until charted false or the encounter of the row ends; not charted counts as
/// absent, and the finding says so. One charted so that it cannot be read is neither: unless it held already, nobody can tell. Charted both
/// ways at one instant it holds; one that excuses is then neither.
/// </summary>
internal static class Circumstances
{
    /// <summary>Sets yes or no; or, where what was charted last cannot be read and none held before, what is missing.</summary>
    public static void Take(Concept concept, in Subject subject, in Timeline timeline, ref Measured result)
    {
        var at = subject.From;
        var facts = timeline.Of(concept);
        var unread = -1;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0;)
        {
            var (yes, no, unreadNow) = OfInstant(timeline, facts, ref i, at);
            if (yes < 0 && no < 0)
            {
                unread = unread < 0 ? unreadNow : unread;
                continue;
            }

            if (yes >= 0 && no >= 0 && concept == Concepts.HyperoxygenationContraindicated)
            {
                unread = yes;
                break;
            }

            // What holds does so until it is charted false, and of one instant what can be read counts.
            if (yes >= 0 || unread < 0)
            {
                result.Uses(timeline.FirstOf(concept) + (yes >= 0 ? yes : no));
                result.Set(yes >= 0 ? "yes" : "no");
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

    // The places of a yes that holds, of what says that it does not, and of what cannot be read, among those of the instant at i; −1 for none.
    private static (int Yes, int No, int Unread) OfInstant(in Timeline timeline, ReadOnlySpan<Fact> facts, ref int i, long at)
    {
        var (yes, no, unread) = (-1, -1, -1);
        for (var instant = facts[i].EffectiveFrom; i >= 0 && facts[i].EffectiveFrom == instant; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.About != timeline.Patient)
            {
                continue;
            }

            var hasEnded = HasEnded(timeline, fact, at);
            yes = fact.Value.Kind == ValueKind.Yes && !hasEnded && yes < 0 ? i : yes;
            no = (fact.Value.Kind == ValueKind.No || (fact.Value.Kind == ValueKind.Yes && hasEnded)) && no < 0 ? i : no;
            unread = fact.Value.Kind is not (ValueKind.Yes or ValueKind.No) && !hasEnded && unread < 0 ? i : unread;
        }

        return (yes, no, unread);
    }

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
