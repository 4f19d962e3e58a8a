using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Which criterion of a check in one set is which in the other; null where it has none there.</summary>
internal static class CriterionPairs
{
    public static IReadOnlyList<(Criterion? From, Criterion? To)> Of(ImmutableArray<Criterion> from, ImmutableArray<Criterion> to)
    {
        if (from is [var only] && to is [var other])
        {
            return [(only, other)];
        }

        var (left, right) = (from.ToList(), to.ToList());
        var paired = new Dictionary<Criterion, Criterion>(ReferenceEqualityComparer.Instance);
        // Three criteria may read one measure and differ in the code that each looks for.
        Pair(left, right, paired, static (one, two) => ReferenceEquals(one.Measure, two.Measure) && Codes(one) == Codes(two));
        Pair(left, right, paired, static (one, two) => ReferenceEquals(one.Measure, two.Measure));
        return
        [
            .. from.Select(one => ((Criterion?)one, paired.GetValueOrDefault(one))),
            .. right.Select(added => ((Criterion?)null, (Criterion?)added)),
        ];
    }

    private static void Pair(List<Criterion> left, List<Criterion> right, Dictionary<Criterion, Criterion> paired, Func<Criterion, Criterion, bool> fits)
    {
        foreach (var one in left.ToList())
        {
            var at = right.FindIndex(two => fits(one, two));
            if (at >= 0)
            {
                paired.Add(one, right[at]);
                right.RemoveAt(at);
                left.Remove(one);
            }
        }
    }

    private static string Codes(Criterion criterion) =>
        string.Join(' ', RuleLimits.OfBands(criterion.Limits).Select(limit => limit.Code).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
}
