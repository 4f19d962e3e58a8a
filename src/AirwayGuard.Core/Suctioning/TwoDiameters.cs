using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Sizes of one tube at one instant that differ: which holds, nobody knows, so that from then on none does, as behind a row that
/// cannot be read.
/// </summary>
internal static class TwoDiameters
{
    /// <summary>A row of a time that tells a size.</summary>
    public static bool Tells(in Fact diameter, out decimal millimetres)
    {
        millimetres = 0m;
        return !diameter.Has(FactMarks.Timeless) && Diameters.TryMillimetres(diameter.Value, out millimetres) && millimetres > 0m;
    }

    /// <summary>Whether the two tell different sizes, or bounds of them.</summary>
    public static bool Differ(in Fact one, in Fact other) =>
        Diameters.TryMillimetres(one.Value, out var size) && Diameters.TryMillimetres(other.Value, out var told)
        && (size != told || one.Value.Comparator != other.Value.Comparator);

    /// <param name="index">Of a row among all facts of tube diameters.</param>
    /// <param name="device">The tube's own Device: what is told of it is told of the patient's tube too; none where there is none.</param>
    /// <returns>Whether another size is told of the same tube at the same instant.</returns>
    public static bool Contradict(in Timeline timeline, int index, Entity device)
    {
        var facts = timeline.Of(Concepts.TubeInnerDiameter);
        ref readonly var fact = ref facts[index];
        if (!Tells(fact, out _))
        {
            return false;
        }

        for (var i = Timeline.FirstAfter(facts, fact.EffectiveFrom) - 1; i >= 0 && facts[i].EffectiveFrom == fact.EffectiveFrom; i--)
        {
            var isOfSameTube = i != index && (facts[i].About == fact.About
                || (!device.IsNone && (facts[i].About == device || facts[i].About == timeline.Patient) && (fact.About == device || fact.About == timeline.Patient)));
            if (isOfSameTube && Tells(facts[i], out _) && Differ(fact, facts[i]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether a Device's own description tells two sizes of it.</summary>
    public static bool OfDevice(in Timeline timeline, Concept concept, Entity device)
    {
        var facts = timeline.Of(concept);
        var first = AirwayBuilder.PropertyFact(timeline, concept, device) - timeline.FirstOf(concept);
        for (var i = Math.Max(first, 0); first >= 0 && i < facts.Length; i++)
        {
            if (facts[i].About == device && facts[i].Has(FactMarks.Timeless) && Differ(facts[first], facts[i]))
            {
                return true;
            }
        }

        return false;
    }
}
