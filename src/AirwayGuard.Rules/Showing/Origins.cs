using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Showing;

/// <summary>Which document states what of one rule; nothing is said of a set that starts from no other.</summary>
/// <param name="All">As <see cref="RuleSetReading.Origins"/>.</param>
internal sealed record Origins(IReadOnlyDictionary<string, string> All, string Rule)
{
    public string Of(string key, AgeBand band = AgeBand.Unknown)
    {
        var word = band == AgeBand.Unknown ? "" : Words.Of(Words.Bands, band);
        return All.GetValueOrDefault(RuleMerge.PathOf(Rule, key, word)) ?? All.GetValueOrDefault(RuleMerge.PathOf(Rule, key)) ?? All.GetValueOrDefault(Rule) ?? "";
    }

    /// <summary>For a rule that is not wholly the set's own: where the rest of it comes from.</summary>
    public string OfTheRule(RuleSet set) =>
        All.GetValueOrDefault(Rule) is { } label && label != $"{set.Name} {set.Version}" ? $", from {label}" : "";
}
