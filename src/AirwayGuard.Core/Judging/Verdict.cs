using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>What one rule says of one subject, with what it rests on. A struct until a finding is born of it.</summary>
/// <param name="Rule">Index in the rule set.</param>
/// <param name="Limit">The limit compared with; null where none was.</param>
/// <param name="DueAt">When to judge again, UTC ticks: of what is not yet over, and of what cannot be told until then; 0 for never.</param>
public readonly record struct Verdict(
    int Rule, Outcome Outcome, AgeBand Band, Severity Severity, Limit? Limit, Measured Measured, Missing Missing, Subject Subject, Line Line, long DueAt)
{
    /// <summary>Says the outcome only.</summary>
    public override string ToString() => $"Verdict({Outcome})";
}
