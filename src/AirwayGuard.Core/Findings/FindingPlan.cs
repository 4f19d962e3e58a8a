using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>What is to happen to one record.</summary>
public enum FindingStep : byte
{
    /// <summary>Nobody knew of it.</summary>
    Raise,

    /// <summary>It stands, on other evidence or with another value.</summary>
    Amend,

    /// <summary>A later fact cleared it, or its line ended.</summary>
    Clear,

    /// <summary>What it rested on was taken back.</summary>
    Withdraw,

    /// <summary>A person closed it: final for this spell.</summary>
    CloseByPerson,

    /// <summary>Its rule is no longer in force: history stays, the Flag ends.</summary>
    Retire,

    /// <summary>An occurrence says what it said and rests on what it rested on; its state or its spell is another: recorded, not sent.</summary>
    Follow,
}

/// <summary>One change to what is recorded.</summary>
/// <param name="Finding">As the facts make it now; null for what they no longer make.</param>
/// <param name="Occurrence">For an occurrence's record.</param>
/// <param name="Prior">What is recorded; null if nothing is.</param>
/// <param name="Replaces">For a spell shown again: key of the Flag a person closed.</param>
public sealed record FindingPlanItem(
    FindingStep Step, FindingKind Kind, Guid Key, DerivedFinding? Finding, Occurrence? Occurrence, FindingRecord? Prior, string Fingerprint, int Shown, Guid? Replaces)
{
    /// <summary>Says what is to happen to which key.</summary>
    public override string ToString() => $"FindingPlanItem({Step}, {Kind}, {Key})";
}

/// <summary>What a person did to our resources on the server, by key.</summary>
/// <param name="ClosedFlags">Flags a person set inactive.</param>
/// <param name="MitigatedIssues">DetectedIssues that carry a mitigation.</param>
public sealed record PersonsActs(IReadOnlySet<Guid> ClosedFlags, IReadOnlySet<Guid> MitigatedIssues)
{
    public static readonly PersonsActs None = new(new HashSet<Guid>(), new HashSet<Guid>());
}

/// <summary>Rules in force and whether anything leaves the service.</summary>
public sealed record FindingPolicy(RuleSet Rules, bool Live)
{
    public bool Sends(Rule rule) => Live && rule.Mode == Mode.Live;
}
