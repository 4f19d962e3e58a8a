using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Showing;

/// <summary>The limits a rule holds, wherever they stand in it.</summary>
internal static class RuleLimits
{
    public static IEnumerable<Limit> Of(Rule rule) =>
        rule.Criteria.Select(criterion => criterion.Limits)
            .Concat(rule.Tighten.Select(circumstance => circumstance.Limits))
            .Concat(rule.Allow.Select(allowance => allowance.Limits).OfType<BandLimits>())
            .SelectMany(OfBands);

    public static IEnumerable<Limit> OfBands(BandLimits limits) =>
        Words.Bands.Select(band => limits.For(band.Value)).OfType<Limit>();

    /// <summary>The bands in order with equal limits of one origin together, each group named (<c>infant, child</c>; <c>all ages</c>).</summary>
    /// <param name="originOf">The document that states a band's limit; empty where that needs no saying.</param>
    public static IEnumerable<(string Bands, Limit? Limit, string Origin)> Grouped(BandLimits limits, Func<AgeBand, Limit, string> originOf)
    {
        var groups = Words.Bands.GroupBy(band => limits.For(band.Value) is { } limit ? (limit, originOf(band.Value, limit)) : ((Limit?)null, ""));
        foreach (var group in groups)
        {
            var words = group.Select(band => band.Word).ToList();
            yield return (words.Count == Words.Bands.Length ? "all ages" : string.Join(", ", words), group.Key.Item1, group.Key.Item2);
        }
    }
}
