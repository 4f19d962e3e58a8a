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

    /// <summary>Checks that only a circumstance or exception of which reads it.</summary>
    public static IReadOnlyList<string> Weighing(Concept concept) =>
        [.. Rules.Where(rule => !Measures(rule, concept) && Guards(rule).Any(guard => guard.Measure.Reads.Contains(concept))).Select(rule => rule.Id)];

    private static bool Measures(Rule rule, Concept concept) => rule.Criteria.Any(criterion => criterion.Measure.Reads.Contains(concept));

    private static IEnumerable<Guard> Guards(Rule rule) => rule.Unless.Concat(rule.Tighten.SelectMany(circumstance => circumstance.When));
}
