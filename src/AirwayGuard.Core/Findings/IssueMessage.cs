using System.Collections.Immutable;
using System.Text.Json.Serialization;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>Status a DetectedIssue is to have (R4 observation-status).</summary>
public enum IssueStatus : byte
{
    Final, Amended, Corrected, EnteredInError,
}

/// <summary>A resource version a finding rests on.</summary>
/// <param name="Reference"><c>Type/id/_history/version</c>, or <c>Type/id</c> where the source gave no version.</param>
/// <param name="Charted">The value as charted; empty where none is shown.</param>
public sealed record MessageEvidence(string Reference, string Charted)
{
    /// <summary>Says the reference only.</summary>
    public override string ToString() => Reference;
}

/// <summary>What a rule set and service are called on what is written.</summary>
public sealed record MessageBasis(string RuleSet, string RuleSetVersion, string RuleSetSha256, string BasisSha256, string SoftwareVersion, string SiteVersion);

/// <summary>The state one occurrence's DetectedIssue is to have on the server. Sending it twice leaves one resource.</summary>
/// <param name="Key">Identifier in system …/sid/finding.</param>
/// <param name="Title">Short name of the check, for code.text.</param>
/// <param name="Say">One sentence: value against limit.</param>
/// <param name="Do">What the policy asks and what clears it.</param>
/// <param name="Patient"><c>Patient/id</c>; null where no patient is known.</param>
/// <param name="Implicated">The act, order or row it is about.</param>
/// <param name="IdentifiedAt">Known time of the arrival that completed the breach.</param>
/// <param name="EventAt">When what is judged happened.</param>
/// <param name="Late">It became known late (after the wait, or after an outage) and is not presented as new.</param>
/// <param name="Sources">Titles of what the limit rests on, with their status in words.</param>
/// <param name="Reason">Why it was corrected or withdrawn; empty otherwise.</param>
/// <param name="RunMode">live or replay: CodeSystem …/CodeSystem/run-mode.</param>
public sealed record IssueMessage(
    Guid Key,
    string Check,
    IssueStatus Status,
    Severity Severity,
    string Title,
    string Say,
    string Do,
    string? Patient,
    ImmutableArray<string> Implicated,
    ImmutableArray<MessageEvidence> Evidence,
    DateTimeOffset IdentifiedAt,
    DateTimeOffset EventAt,
    bool Late,
    string AgeBand,
    ImmutableArray<string> Sources,
    string Reason,
    string RunMode,
    MessageBasis Basis)
{
    /// <summary>What its words say of the pressure in the trachea; null where they say nothing of it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public PressureEstimate? Estimate { get; init; }

    /// <summary>Says its key only.</summary>
    public override string ToString() => $"IssueMessage({Key})";
}
