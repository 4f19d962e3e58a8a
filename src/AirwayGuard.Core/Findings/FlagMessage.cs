using System.Collections.Immutable;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Core.Findings;

/// <summary>Status a Flag is to have (R4 flag-status).</summary>
public enum FlagStatus : byte
{
    Active, Inactive, EnteredInError,
}

/// <summary>The state one spell's Flag is to have on the server.</summary>
/// <param name="Key">Identifier in system …/sid/flag.</param>
/// <param name="Text">One line for a person: what stands.</param>
/// <param name="Subject"><c>Patient/id</c>, else <c>Location/id</c>; never a Device.</param>
/// <param name="Encounter"><c>Encounter/id</c> or null.</param>
/// <param name="PeriodStart">Known time of the arrival that completed the first breach.</param>
/// <param name="PeriodEnd">When it ended; null while it stands.</param>
/// <param name="Issues">Keys of its occurrences, for flag-detail.</param>
/// <param name="Replaces">Key of the Flag that a person closed and this one shows again; null for none.</param>
/// <param name="Reason">What cleared it, or why it was withdrawn; empty while it stands.</param>
public sealed record FlagMessage(
    Guid Key,
    string Check,
    FlagStatus Status,
    Severity Severity,
    string Text,
    string Subject,
    string? Encounter,
    DateTimeOffset PeriodStart,
    DateTimeOffset? PeriodEnd,
    ImmutableArray<Guid> Issues,
    Guid? Replaces,
    string Reason,
    ImmutableArray<MessageEvidence> Evidence,
    string RunMode,
    MessageBasis Basis)
{
    /// <summary>When its latest breach happened, where that became known late; null where it was known in time.</summary>
    public DateTimeOffset? LateBreachAt { get; init; }

    /// <summary>Says its key only.</summary>
    public override string ToString() => $"FlagMessage({Key})";
}
