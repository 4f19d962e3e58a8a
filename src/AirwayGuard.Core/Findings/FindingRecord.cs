using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Findings;

public enum FindingKind : byte
{
    /// <summary>One breach of one check by one subject: a DetectedIssue.</summary>
    Occurrence,

    /// <summary>The run of occurrences of a standing check on one line: a Flag.</summary>
    Spell,

    /// <summary>What a check could not tell, once per line: no resource.</summary>
    CannotTell,
}

public enum FindingState : byte
{
    Open, Cleared, Withdrawn, ClosedByPerson,
}

/// <summary>A finding as the ledger keeps it.</summary>
/// <param name="Key">UUIDv5 by <see cref="FindingKeys"/>: the DetectedIssue's or the Flag's identifier.</param>
/// <param name="Parent">The spell an occurrence belongs to; empty for none.</param>
/// <param name="First">Time of the first occurrence, UTC ticks.</param>
/// <param name="Latest">Time of the latest one.</param>
/// <param name="Content">Everything else, canonical JSON (UTF-8): values, limit, words, evidence.</param>
public sealed record FindingRecord(
    Guid Key,
    FindingKind Kind,
    string Check,
    Entity Patient,
    FindingState State,
    Guid Parent,
    int Count,
    long First,
    long Latest,
    bool Late,
    Position JudgedAt,
    string BasisSha256,
    ReadOnlyMemory<byte> Content)
{
    /// <summary>Says its check and state only.</summary>
    public override string ToString() => $"FindingRecord({Kind}, {Check}, {State})";
}
