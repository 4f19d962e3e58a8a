using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Circumstances: true from when they are charted until charted false or the encounter of the row ends; not charted counts as
/// absent, and the finding says so.
/// </summary>
internal static class Circumstances
{
    public static void Take(Concept concept, in Subject subject, in Timeline timeline, ref Measured result)
    {
        var at = subject.From;
        var facts = timeline.Of(concept);
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0; i--)
        {
            ref readonly var fact = ref facts[i];
            if (fact.About != timeline.Patient || fact.Value.Kind is not (ValueKind.Yes or ValueKind.No))
            {
                continue;
            }

            var holds = fact.Value.Kind == ValueKind.Yes && !HasEnded(timeline, fact, at);
            result.Uses(timeline.FirstOf(concept) + i);
            result.Set(holds ? "yes" : "no");
            return;
        }

        result.Set("no");
    }

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
