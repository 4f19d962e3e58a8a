using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Which member names a subject: the one known earliest; of those known together a Procedure, then a suction-pass row, then by
/// time, type and id.
/// </summary>
internal static class Ranking
{
    /// <returns>True if <paramref name="left"/> ranks before <paramref name="right"/>.</returns>
    public static bool IsBefore(in Fact left, in Fact right, IEntityNames names)
    {
        if (left.RowKnown != right.RowKnown)
        {
            return left.RowKnown < right.RowKnown;
        }

        var (leftRank, rightRank) = (Rank(left), Rank(right));
        if (leftRank != rightRank)
        {
            return leftRank < rightRank;
        }

        return left.EffectiveFrom != right.EffectiveFrom
            ? left.EffectiveFrom < right.EffectiveFrom
            : left.Row != right.Row && string.CompareOrdinal(names.NameOf(left.Row), names.NameOf(right.Row)) < 0;
    }

    private static int Rank(in Fact fact) =>
        fact.Row.Kind == EntityKind.Act ? 0 : fact.Concept == Concepts.SuctionPass ? 1 : 2;
}
