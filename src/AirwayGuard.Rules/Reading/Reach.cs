using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Reading;

/// <summary>Finds circumstances that can never decide anything.</summary>
internal static class Reach
{
    public static void Check(Keys rule, ImmutableArray<Criterion> criteria, ImmutableArray<Circumstance> tighten, ImmutableArray<Guard> unless, Faults faults)
    {
        if (criteria is [var only] && unless is [var guard] && guard.Measure == only.Measure && HoldsWhereItBreaches(guard.Limit, only.Limits))
        {
            faults.Add(Codes.CircumstanceUnreachable, rule.Find("unless")!.At, "unless holds wherever the rule would breach, so that nothing is ever found.");
        }

        if (rule.Find("tighten")?.Value is not ListNode { Items: var items } || items.Count != tighten.Length)
        {
            return;
        }

        for (var i = 0; i < tighten.Length; i++)
        {
            if (unless.Length > 0 && Includes(tighten[i].When, unless))
            {
                faults.Add(Codes.CircumstanceUnreachable, items[i].At, "Where this circumstance holds, unless holds too, and the rule is not judged.");
            }
            else if (tighten.Take(i).Any(earlier => Includes(tighten[i].When, earlier.When) && IsNoStricter(tighten[i].Limits, earlier.Limits)))
            {
                faults.Add(Codes.CircumstanceUnreachable, items[i].At, "Where this circumstance holds, an earlier one holds too, and its limits are as strict.");
            }
        }
    }

    private static bool HoldsWhereItBreaches(Limit guard, BandLimits limits) => Words.Bands.All(band =>
        limits.For(band.Value) is not { } limit
        || (LimitOrder.SameDirection(guard.Comparison, limit.Comparison) ? !LimitOrder.IsStricter(limit, guard) : guard.ComparesAs(limit)));

    /// <summary>Whenever all of the one hold, all of the other do.</summary>
    private static bool Includes(ImmutableArray<Guard> whole, ImmutableArray<Guard> part) =>
        part.Length > 0 && part.All(guard => whole.Any(other => other.Measure == guard.Measure && other.Limit.ComparesAs(guard.Limit)));

    private static bool IsNoStricter(BandLimits limits, BandLimits earlier) => Words.Bands.All(band =>
        limits.For(band.Value) is not { } limit || (earlier.For(band.Value) is { } known && !LimitOrder.IsStricter(limit, known)));
}
