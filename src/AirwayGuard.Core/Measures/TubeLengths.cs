using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Lengths of a tube and its adapter. They hold with their tube: charted since it came into use, else a property of its Device.</summary>
internal static class TubeLengths
{
    /// <returns>Index of the fact that holds at a time; −1 where none does, or no airway is in use.</returns>
    public static int At(Concept concept, in Timeline timeline, Care care, int airway, long at)
    {
        if (airway < 0)
        {
            return -1;
        }

        var span = care.Airways[airway];
        var facts = timeline.Of(concept);
        var latest = -1;
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0 && facts[i].EffectiveFrom >= span.From; i--)
        {
            if (latest >= 0 && facts[i].EffectiveFrom < facts[latest].EffectiveFrom)
            {
                break;
            }

            // Of two charted at one instant the shorter counts: more depths are found beyond it.
            if (IsOf(timeline, span, facts[i]) && IsLength(concept, facts[i], out var length)
                && (latest < 0 || (IsLength(concept, facts[latest], out var other) && length < other)))
            {
                latest = i;
            }
        }

        if (latest >= 0)
        {
            return timeline.FirstOf(concept) + latest;
        }

        var own = span.Device.IsNone ? -1 : AirwayBuilder.PropertyFact(timeline, concept, span.Device);
        return own >= 0 && IsLength(concept, timeline.Facts[own], out _) ? own : -1;
    }

    private static bool IsOf(in Timeline timeline, in AirwaySpan span, in Fact fact) =>
        !fact.Has(FactMarks.Timeless) && (fact.About == timeline.Patient || (!span.Device.IsNone && fact.About == span.Device));

    // A tube without length is none; an adapter of 0 says that there is none.
    private static bool IsLength(Concept concept, in Fact fact, out decimal millimetres) =>
        Diameters.TryMillimetres(fact.Value, out millimetres) && fact.Value.Digits >= 0 && (millimetres > 0m || concept == Concepts.AdapterLength);
}
