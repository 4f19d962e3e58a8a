using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules;

namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>Which checks of the default rule set read which concepts, by what their measures declare.</summary>
internal static class ChecksOfConcepts
{
    private static readonly IReadOnlyList<Rule> Rules = [.. ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!.Rules];

    /// <summary>Checks whose own measure reads the concept.</summary>
    public static IReadOnlyList<string> Measuring(Concept concept) => [.. Rules.Where(rule => Measures(rule, concept)).Select(rule => rule.Id)];

    /// <summary>Checks that read it only for a circumstance, an exception, a reason that lets pass, or the age that chooses the limit.</summary>
    public static IReadOnlyList<string> Weighing(Concept concept) =>
        [.. Rules.Where(rule => !Measures(rule, concept) && Weighs(rule, concept)).Select(rule => rule.Id)];

    private static bool Measures(Rule rule, Concept concept) => rule.Criteria.Any(criterion => criterion.Measure.Reads.Contains(concept));

    private static bool Weighs(Rule rule, Concept concept) =>
        Guards(rule).Any(guard => guard.Measure.Reads.Contains(concept))
        || rule.Allow.Any(allowance => allowance.Reads.Contains(concept))
        || (Ages.Reads.Contains(concept) && NeedsAge(rule));

    private static bool NeedsAge(Rule rule) => rule.NeedsAge || rule.Criteria.Select(criterion => criterion.Limits)
        .Concat(rule.Tighten.Select(circumstance => circumstance.Limits))
        .Concat(rule.Allow.Select(allowance => allowance.Limits).OfType<BandLimits>())
        .Any(limits => !limits.AreOne);

    private static IEnumerable<Guard> Guards(Rule rule) => rule.Unless.Concat(rule.Tighten.SelectMany(circumstance => circumstance.When));
}
