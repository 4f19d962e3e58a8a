using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Body weight in use: the latest, at most 7 days old, of a neonate 48 h (common practice, no source). Of several at one instant the
/// lowest, for which a dose is largest.
/// </summary>
internal static class BodyWeight
{
    private const long Holds = 7 * TimeSpan.TicksPerDay, HoldsInNeonate = 2 * TimeSpan.TicksPerDay;

    /// <summary>A number this small is no weight, and dividing by it would leave the range of numbers.</summary>
    private const decimal LeastKilograms = 0.001m;

    /// <returns>Index of the fact; −1 where none is charted.</returns>
    public static int At(in Timeline timeline, in Subject subject, out decimal kilograms)
    {
        // Where a neonate is possible a weight is believed no longer than a neonate's.
        Ages.TryBands(timeline, subject.From, subject.OffsetMinutes, out var youngest, out _, out _);
        var notBefore = subject.From - (youngest == AgeBand.Neonate ? HoldsInNeonate : Holds);
        var facts = timeline.Of(Concepts.BodyWeight);
        (var best, kilograms) = (-1, 0m);
        for (var i = Timeline.FirstAfter(facts, subject.From) - 1; i >= 0 && facts[i].EffectiveFrom >= notBefore; i--)
        {
            ref readonly var fact = ref facts[i];
            if (best >= 0 && fact.EffectiveFrom < facts[best].EffectiveFrom)
            {
                break;
            }

            var charted = fact.Value.Unit == Unit.Gram ? fact.Value.Amount / 1000m : fact.Value.Amount;
            if (fact.About == timeline.Patient && fact.Value.IsNumber && fact.Value.Comparator == Comparator.Exactly
                && fact.Value.Unit is Unit.Gram or Unit.Kilogram && charted >= LeastKilograms && (best < 0 || charted < kilograms))
            {
                (best, kilograms) = (i, charted);
            }
        }

        return best < 0 ? -1 : timeline.FirstOf(Concepts.BodyWeight) + best;
    }
}
