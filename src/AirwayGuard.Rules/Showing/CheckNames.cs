using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Showing;

/// <summary>What a check is called among clinicians: its document's title, else that of the shipped check of its id, else the id's words.</summary>
internal static class CheckNames
{
    private static readonly Lazy<Dictionary<string, string>> Shipped = new(static () => ShippedRuleSets.Names
        .SelectMany(name => ShippedRuleSets.Load(name).RuleSet!.Rules)
        .DistinctBy(rule => rule.Id, StringComparer.Ordinal)
        .ToDictionary(rule => rule.Id, rule => rule.Title, StringComparer.Ordinal));

    /// <summary>In lower case where it may stand within a sentence, such as <c>vacuum ceiling</c>.</summary>
    public static string Of(Rule rule) => rule.Title.Length > 0 ? rule.Title : OfId(rule.Id);

    /// <summary>As <see cref="Of"/>, of a check that is known by its id alone.</summary>
    public static string OfId(string id) => Shipped.Value.TryGetValue(id, out var title) ? title : id.Replace('-', ' ');
}
