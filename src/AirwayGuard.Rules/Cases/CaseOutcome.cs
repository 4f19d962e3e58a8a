using System.Collections.Immutable;

namespace AirwayGuard.Rules.Cases;

/// <summary>What came of a case by one rule set.</summary>
/// <param name="Differences">What was expected and did not come, and what came and was not expected; empty where the case holds.</param>
internal sealed record CaseOutcome(Case Case, ImmutableArray<string> Differences)
{
    public bool Holds => Differences.IsEmpty;
}
