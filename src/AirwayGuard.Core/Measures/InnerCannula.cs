using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether an inner cannula is in place at a time, and which fact gives its diameter.</summary>
internal static class InnerCannula
{
    /// <returns>Index of the fact that gives the diameter; −1 where none is in place or its diameter is not charted.</returns>
    public static int At(in Timeline timeline, Care care, in AirwaySpan airway, long at, out bool isInPlace)
    {
        var (diameter, since) = (-1, long.MinValue);
        isInPlace = false;
        LatestDiameter(timeline, airway, at, ref diameter, ref since, ref isInPlace);
        ApplyMarks(timeline, airway, at, ref diameter, ref since, ref isInPlace);
        ApplyDevices(timeline, care, airway, at, ref diameter, since, ref isInPlace);
        return diameter;
    }

    private static void LatestDiameter(in Timeline timeline, in AirwaySpan airway, long at, ref int diameter, ref long since, ref bool isInPlace)
    {
        var facts = timeline.Of(Concepts.InnerCannulaDiameter);
        for (var i = Timeline.FirstAfter(facts, at) - 1; i >= 0 && facts[i].EffectiveFrom >= airway.From; i--)
        {
            if (facts[i].About != timeline.Patient || facts[i].Has(FactMarks.Timeless) || !Diameters.TryMillimetres(facts[i].Value, out var millimetres))
            {
                continue;
            }

            isInPlace = millimetres > 0m;
            diameter = isInPlace ? timeline.FirstOf(Concepts.InnerCannulaDiameter) + i : -1;
            since = facts[i].EffectiveFrom;
            return;
        }
    }

    // Later marks override; at the same instant "not in place" wins over a diameter in the same column.
    private static void ApplyMarks(in Timeline timeline, in AirwaySpan airway, long at, ref int diameter, ref long since, ref bool isInPlace)
    {
        var marks = timeline.Of(Concepts.InnerCannulaInPlace);
        for (var i = Timeline.FirstAfter(marks, since - (since == long.MinValue ? 0 : 1)); i < marks.Length && marks[i].EffectiveFrom <= at; i++)
        {
            ref readonly var mark = ref marks[i];
            if (mark.About != timeline.Patient || mark.EffectiveFrom < airway.From || mark.Value.Kind is not (ValueKind.Yes or ValueKind.No))
            {
                continue;
            }

            isInPlace = mark.Value.Kind == ValueKind.Yes;
            diameter = isInPlace ? diameter : -1;
            since = mark.EffectiveFrom;
        }
    }

    private static void ApplyDevices(in Timeline timeline, Care care, in AirwaySpan airway, long at, ref int diameter, long since, ref bool isInPlace)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.UsedBy || link.To != timeline.Patient || care.KindOf(link.From) != Answers.InnerCannula
                || !link.HoldsAt(at) || link.FromTime < since || (link.FromTime != long.MinValue && link.FromTime < airway.From))
            {
                continue;
            }

            isInPlace = true;
            var property = AirwayBuilder.PropertyFact(timeline, Concepts.InnerCannulaDiameter, link.From);
            diameter = property >= 0 ? property : AirwayBuilder.PropertyFact(timeline, Concepts.TubeInnerDiameter, link.From);
        }
    }
}
