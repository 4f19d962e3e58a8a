using AirwayGuard.Core.Judging;

namespace AirwayGuard.TestKit.Pipeline;

/// <summary>
/// A shipped rule set cut down to eight checks, one of each way in which a finding comes and goes: what the pipeline does with a
/// finding does not hang on how many checks there are.
/// </summary>
public static class FewChecks
{
    private static readonly string[] Ids =
    [
        "vacuum-above-ceiling", "regulator-on-full-line", "vacuum-unit-doubtful", "catheter-too-wide", "pass-too-long", "preoxygenation-missing",
        "blood-stained-secretions-trend", "suction-ordered-by-clock",
    ];

    /// <summary>The set with these rules only, in its own order.</summary>
    public static RuleSet Of(RuleSet rules) => rules with { Rules = [.. rules.Rules.Where(rule => Ids.Contains(rule.Id, StringComparer.Ordinal))] };
}
