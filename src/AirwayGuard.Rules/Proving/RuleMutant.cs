using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Proving;

/// <summary>A rule set with one thing of one rule changed, as a slip of the hand would.</summary>
/// <param name="Check">Id of the rule.</param>
/// <param name="What">What was changed, in words.</param>
internal sealed record RuleMutant(string Check, string What, RuleSet Set);
