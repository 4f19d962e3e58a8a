using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;

namespace AirwayGuard.Worker.Judging;

/// <summary>Everything besides arrivals that a finding depends on, under one hash that stands on every finding.</summary>
/// <param name="Live">False where nothing may leave the service, whatever was signed off.</param>
/// <param name="UnknownAge">What to do where the age is not known.</param>
/// <param name="LateAfter">Known this much later than it happened, a finding is marked late. Hours to days; default 2 h.</param>
public sealed record ServiceBasis(RuleSet Rules, bool Live, UnknownAge UnknownAge, TimeSpan LateAfter, MessageBasis Names)
{
    /// <summary>What happened longer ago is recorded and raises no new Flag. Hours to years; default without end.</summary>
    public TimeSpan NewFor { get; init; } = TimeSpan.MaxValue;

    /// <summary>The rule set's document, for the ledger to keep; null where there is none.</summary>
    public RuleDocument? Document { get; init; }

    /// <summary>What named persons let speak of the rules.</summary>
    public SignedOff SignedOff { get; init; } = SignedOff.All;

    /// <summary>Whether anything leaves the service at all.</summary>
    public bool Speaks => Live && SignedOff.AnySpeaks(Rules);

    /// <summary>For a patient by whose places the rules speak or are silent.</summary>
    public FindingPolicy PolicyOf(RuleSet rulesThere) => new(rulesThere, Live, NewFor);
}
