using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Charting;

/// <summary>The order of a timeline: concept, start, then value, so that what is charted at one instant stands in one order however it arrived; then row and ordinal.</summary>
public sealed class FactOrder : IComparer<Fact>
{
    public static readonly FactOrder Instance = new();

    public int Compare(Fact x, Fact y)
    {
        var by = x.Concept.Index.CompareTo(y.Concept.Index);
        by = by != 0 ? by : x.EffectiveFrom.CompareTo(y.EffectiveFrom);
        by = by != 0 ? by : Compare(x.Value, y.Value);
        by = by != 0 ? by : x.Row.CompareTo(y.Row);
        by = by != 0 ? by : x.Id.Ordinal.CompareTo(y.Id.Ordinal);
        return by != 0 ? by : x.Id.Arrival.CompareTo(y.Id.Arrival);
    }

    private static int Compare(in FactValue x, in FactValue y)
    {
        var by = x.Kind.CompareTo(y.Kind);
        by = by != 0 ? by : x.IsNumber ? x.Amount.CompareTo(y.Amount) : x.Digits.CompareTo(y.Digits);
        by = by != 0 ? by : x.Unit.CompareTo(y.Unit);
        return by != 0 ? by : x.Symbol.CompareTo(y.Symbol);
    }

    /// <summary>Sorts facts and gives the index of each concept's first fact, for <see cref="Timeline"/>.</summary>
    public static int[] SortAndIndex(Span<Fact> facts)
    {
        facts.Sort(Instance);
        return Index(facts);
    }

    /// <summary>The same where most are sorted already: puts the few behind them in their places.</summary>
    /// <param name="sorted">The first so many are in order.</param>
    public static int[] MergeAndIndex(Span<Fact> facts, int sorted)
    {
        var few = facts[sorted..].ToArray();
        Array.Sort(few, Instance);
        var (many, next) = (sorted - 1, few.Length - 1);
        for (var at = facts.Length - 1; next >= 0; at--)
        {
            facts[at] = many >= 0 && Instance.Compare(facts[many], few[next]) > 0 ? facts[many--] : few[next--];
        }

        return Index(facts);
    }

    private static int[] Index(ReadOnlySpan<Fact> facts)
    {
        var start = new int[Concepts.Count + 1];
        var concept = 0;
        for (var i = 0; i < facts.Length; i++)
        {
            for (; concept <= facts[i].Concept.Index; concept++)
            {
                start[concept] = i;
            }
        }

        for (; concept < start.Length; concept++)
        {
            start[concept] = facts.Length;
        }

        return start;
    }
}
