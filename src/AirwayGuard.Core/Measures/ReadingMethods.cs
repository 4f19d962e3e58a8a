using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>How a vacuum was read: said by the row itself, else by a row of the same instant.</summary>
internal static class ReadingMethods
{
    /// <returns>Index of the answer; 0 where no method is charted. Of several at one instant the least sure counts.</returns>
    public static int Of(in Timeline timeline, Care care, int reading) => Of(timeline, care, reading, out _);

    /// <param name="methodFact">Index of the fact that says it; −1 for none.</param>
    /// <inheritdoc cref="Of(in Timeline, Care, int)" />
    public static int Of(in Timeline timeline, Care care, int reading, out int methodFact)
    {
        methodFact = -1;
        ref readonly var fact = ref timeline.Facts[reading];
        var methods = timeline.Of(Concepts.VacuumReadingMethod);
        var sameInstant = 0;
        for (var i = Timeline.FirstAfter(methods, fact.EffectiveFrom) - 1; i >= 0 && methods[i].EffectiveFrom == fact.EffectiveFrom; i--)
        {
            ref readonly var method = ref methods[i];
            if (method.Value.Kind != ValueKind.Code)
            {
                continue;
            }

            if (method.Row == fact.Row)
            {
                methodFact = timeline.FirstOf(Concepts.VacuumReadingMethod) + i;
                return method.Value.Symbol;
            }

            if (method.About == fact.About && (method.Encounter.IsNone || fact.Encounter.IsNone || method.Encounter == fact.Encounter)
                && !CarriesOwnReading(timeline, method))
            {
                if (sameInstant == 0 || sameInstant == Answers.Occluded)
                {
                    sameInstant = method.Value.Symbol;
                    methodFact = timeline.FirstOf(Concepts.VacuumReadingMethod) + i;
                }
            }
        }

        return sameInstant;
    }

    // A method that is a component of another reading speaks of that one only.
    private static bool CarriesOwnReading(in Timeline timeline, in Fact method)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.VacuumPressure, Concepts.VacuumSet])
        {
            var readings = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(readings, method.EffectiveFrom) - 1; i >= 0 && readings[i].EffectiveFrom == method.EffectiveFrom; i--)
            {
                if (readings[i].Row == method.Row)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
