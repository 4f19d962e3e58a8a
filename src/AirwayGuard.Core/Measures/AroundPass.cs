using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Vital signs in the five minutes before a pass, during it and in the five minutes after. The window is that of Maggiore 2013 for
/// the baseline and of Jongerden 2012, who saw changes gone after five minutes, for what follows.
/// </summary>
internal static class AroundPass
{
    public const long Window = 5 * TimeSpan.TicksPerMinute;

    /// <summary>Code of a charted reaction that is not asked for.</summary>
    public const string Other = "other";

    /// <summary>The last number charted in the five minutes up to the start; of several at one instant the highest, so that no fall hides.</summary>
    /// <returns>Index of the fact; −1 for none.</returns>
    public static int Before(in Timeline timeline, Concept concept, long start)
    {
        var facts = timeline.Of(concept);
        var best = -1;
        for (var i = Timeline.FirstAfter(facts, start) - 1; i >= 0 && facts[i].EffectiveFrom >= start - Window; i--)
        {
            if (best >= 0 && facts[i].EffectiveFrom < facts[best].EffectiveFrom)
            {
                break;
            }

            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber && LastOf(facts[i]) <= start
                && (best < 0 || Amount(facts[i].Value) > Amount(facts[best].Value)))
            {
                best = i;
            }
        }

        return best < 0 ? -1 : timeline.FirstOf(concept) + best;
    }

    /// <summary>The first number charted from the end to five minutes after; one at the very start was taken before.</summary>
    /// <returns>Index of the fact; −1 for none.</returns>
    public static int After(in Timeline timeline, Concept concept, long start, long end)
    {
        var facts = timeline.Of(concept);
        for (var i = Timeline.FirstAfter(facts, Math.Max(start, end - 1)); i < facts.Length && facts[i].EffectiveFrom <= end + Window; i++)
        {
            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber)
            {
                return timeline.FirstOf(concept) + i;
            }
        }

        return -1;
    }

    /// <summary>The lowest number charted during the pass or in the five minutes after, the earliest of equal ones.</summary>
    /// <param name="atStart">A number at the very start counts too.</param>
    public static int Lowest(in Timeline timeline, Concept concept, long start, long end, bool atStart) =>
        Extreme(timeline, concept, start, end, atStart, -1);

    /// <summary>The highest, likewise.</summary>
    public static int Highest(in Timeline timeline, Concept concept, long start, long end, bool atStart) =>
        Extreme(timeline, concept, start, end, atStart, 1);

    /// <summary>Sets what one fact says as the value, with its comparator.</summary>
    public static void Tell(in Timeline timeline, int fact, decimal amount, Unit unit, ref Measured result)
    {
        result.Uses(fact);
        result.Charted = fact;
        result.Set(amount, unit);
        result.Comparator = timeline.Facts[fact].Value.Comparator;
    }

    /// <summary>Saturation is charted as a share of one or of a hundred, whatever the unit says: up to 1 it is a share of one.</summary>
    public static decimal Percent(in FactValue value) => value.Amount <= 1m ? value.Amount * 100m : value.Amount;

    /// <summary>True where the reaction to the pass was charted with it, whatever it was.</summary>
    public static bool HasReaction(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            if (timeline.Facts[index].Concept == Concepts.SuctionReaction && timeline.Facts[index].Value.Kind == ValueKind.Code)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// Yes where one of the reactions is charted with the pass, no where only others or none; nothing where none was charted. Beside one
    /// that cannot be read, others and none leave it open: it may be what is asked.
    /// </summary>
    public static void Reaction(in Subject subject, in Timeline timeline, Care care, ReadOnlySpan<int> asked, ref Measured result)
    {
        var (said, isAsked, unread) = (-1, false, -1);
        foreach (var index in care.MembersOf(care.Passes[subject.Index]))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept != Concepts.SuctionReaction || fact.Value.Kind != ValueKind.Code)
            {
                unread = fact.Concept == Concepts.SuctionReaction && fact.Value.Kind == ValueKind.Unreadable ? index : unread;
                continue;
            }

            var asks = asked.Contains(fact.Value.Symbol);
            if (said < 0 || (asks && !isAsked))
            {
                result.Uses(index);
                (said, isAsked) = (index, asks);
            }
        }

        if (!isAsked && unread >= 0)
        {
            result.Uses(unread);
            result.Charted = unread;
            result.Missing = Missing.Reaction;
        }
        else if (said >= 0)
        {
            result.Charted = said;
            result.Set(isAsked ? Answers.Code(timeline.Facts[said].Value.Symbol) : Other);
        }
    }

    private static int Extreme(in Timeline timeline, Concept concept, long start, long end, bool atStart, int sign)
    {
        var facts = timeline.Of(concept);
        var best = -1;
        for (var i = Timeline.FirstAfter(facts, end + Window) - 1; i >= 0 && facts[i].EffectiveFrom >= start - Window; i--)
        {
            if (facts[i].About == timeline.Patient && facts[i].Value.IsNumber && (LastOf(facts[i]) > start || (atStart && LastOf(facts[i]) == start))
                && (best < 0 || (Amount(facts[i].Value) - Amount(facts[best].Value)) * sign >= 0m))
            {
                best = i;
            }
        }

        return best < 0 ? -1 : timeline.FirstOf(concept) + best;
    }

    private static decimal Amount(in FactValue value) => value.Unit is Unit.Percent or Unit.One ? Percent(value) : value.Amount;

    // A number charted over a period stands for all of it: one charted over the pass was not there before.
    private static long LastOf(in Fact fact) => fact.EffectiveTo == long.MaxValue ? fact.EffectiveFrom : fact.EffectiveTo;
}
