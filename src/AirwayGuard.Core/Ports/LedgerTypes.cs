using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;

namespace AirwayGuard.Core.Ports;

/// <summary>An arrival with what was read from it.</summary>
public sealed record ReadArrival(Arrival Arrival, Reading Reading);

/// <param name="IsNew">False for a duplicate.</param>
public readonly record struct KeptArrival(Position Position, bool IsNew);

/// <summary>How far a sweep has come, by the server's clock.</summary>
public sealed record SweepCursor(string Name, DateTimeOffset ServerTime, string? LastId);

public enum WorkKind : byte
{
    Judge, Send,
}

/// <summary>A claim: a patient to judge up to a position, or an outgoing message to send.</summary>
/// <param name="Outgoing">The message's key for <see cref="WorkKind.Send"/>; else empty.</param>
/// <param name="Affected">Effective times of what changed since the patient was last judged.</param>
/// <param name="Attempts">
/// How many times a message was claimed to be sent, or a patient since the last judgement that succeeded, this time included.
/// </param>
/// <param name="Fence">A decision or receipt under an older fence is refused.</param>
public sealed record Work(WorkKind Kind, Entity Patient, Position UpTo, TimeRange Affected, Guid Outgoing, int Attempts, long Fence);

/// <summary>From and to, UTC ticks, both inclusive.</summary>
public readonly record struct TimeRange(long From, long To)
{
    public static readonly TimeRange All = new(long.MinValue, long.MaxValue);
}

/// <summary>What a judgement decided about one patient.</summary>
/// <param name="AsOf">The time judged at, UTC ticks.</param>
/// <param name="Changes">Records to write or overwrite, by key.</param>
/// <param name="Due">The patient's due times from now on; they replace the ones on file.</param>
public sealed record Decision(
    Entity Patient,
    Position UpTo,
    long AsOf,
    long Fence,
    string BasisSha256,
    ImmutableArray<FindingRecord> Changes,
    ImmutableArray<Outgoing> Outgoing,
    ImmutableArray<DueTime> Due,
    ImmutableArray<AuditNote> Audit);

/// <summary>Since when a basis is in force.</summary>
/// <param name="Position">Of its arrival; the beginning for a ledger's first, which took no other's place.</param>
public readonly record struct BasisSince(Position Position, DateTimeOffset At);

/// <summary>A judgement that failed.</summary>
/// <param name="At">When it was last tried.</param>
/// <param name="NotBefore">When to try again at the earliest; null to park it.</param>
public sealed record FailedJudgement(Entity Patient, long Fence, string Code, DateTimeOffset At, DateTimeOffset? NotBefore);

/// <summary>A message on its way out. At most one per key is pending: a newer one of the same key takes its place.</summary>
/// <param name="Key">The resource it is about: finding key, flag key.</param>
/// <param name="Kind">Which sink takes it, e.g. <c>fhir</c>.</param>
/// <param name="Content">Canonical JSON for the sink.</param>
public sealed record Outgoing(Guid Key, string Kind, Entity Patient, string Content)
{
    /// <summary>Messages more urgent go out first; those of one urgency in the order in which they were decided.</summary>
    public Urgency Urgency { get; init; }
}

/// <summary>A patient is to be judged again at this time, UTC ticks.</summary>
public readonly record struct DueTime(long At, string Check);

public enum Committed : byte
{
    Yes, StaleFence, Already,
}

/// <summary>Outbox states: pending; sent, but nobody knows whether it arrived; confirmed; parked.</summary>
public enum SendState : byte
{
    Pending, Unknown, Confirmed, Parked,
}

/// <param name="NotBefore">For a message to be tried again: not before this time.</param>
public sealed record Receipt(
    Guid Outgoing, long Fence, SendState State, string? ServerId, string? ServerVersion, string? ProblemCode, DateTimeOffset At, DateTimeOffset? NotBefore)
{
    /// <summary>The attempt does not count: nobody was there to take it.</summary>
    public bool IsNoAttempt { get; init; }
}

/// <summary>What was set aside: an arrival that could not be read, a message that could not be sent, a patient whose file could not be judged.</summary>
/// <param name="At">When it was last tried.</param>
public sealed record ParkedItem(Position? Arrival, Guid? Outgoing, string Code, string Where, DateTimeOffset At)
{
    /// <summary>Whose file could not be judged; none for the others.</summary>
    public Entity Patient { get; init; }
}

/// <summary>One thing set aside, as a person names it.</summary>
/// <param name="Number">Its number; it stays while the thing is parked.</param>
/// <param name="First">When it was first set aside; <see cref="ParkedItem.At"/> is the latest time.</param>
public sealed record ParkedEntry(long Number, ParkedItem Item, DateTimeOffset First);

/// <summary>Which patients to replay: all whose key modulo <paramref name="Partitions"/> is <paramref name="Partition"/>.</summary>
public sealed record HistoryRange(TimeRange Window, Position AsKnownAt, int Partition, int Partitions);

/// <param name="JudgedAt">The positions and times (UTC ticks) at which the patient was judged, in order.</param>
public sealed record PatientHistory(Entity Patient, TimelineLease Facts, ImmutableArray<JudgedPoint> JudgedAt);

public readonly record struct JudgedPoint(Position UpTo, long AsOf, string BasisSha256);

/// <summary>What is to be written in the audit trail: what happened, to what, and digests of bodies it speaks of.</summary>
/// <param name="What">A fixed word of ours: kept, judged, sent, parked, promoted, …</param>
/// <param name="Subject">A resource, check or key; no charted content.</param>
/// <param name="Detail">Canonical JSON without charted content.</param>
/// <param name="Body">The body it speaks of, of which a salted digest is recorded; empty if none.</param>
public sealed record AuditNote(string What, string Subject, string Detail, ReadOnlyMemory<byte> Body)
{
    /// <summary>Says what happened, not to whom.</summary>
    public override string ToString() => $"AuditNote({What})";
}

/// <summary>One entry of the chain as recorded. <see cref="Hash"/> covers every other member and the hash before.</summary>
public sealed record AuditEntry(long Chain, long Number, DateTimeOffset At, string What, string Subject, string Detail, string BodyDigest, string PreviousHash, string Hash);

/// <summary>The newest entry of a chain; anchored outside.</summary>
public sealed record AuditHead(long Chain, long Number, string Hash);

public sealed record LedgerState(Position Newest, long PatientsWaiting, long Pending, long Unknown, long Confirmed, long Parked, long Arrivals)
{
    /// <summary>The oldest change that a patient waits for to be judged; null where none waits.</summary>
    public Position? OldestWaiting { get; init; }

    /// <summary>The same, those left out whose judging failed and is to be tried again.</summary>
    public Position? OldestUntried { get; init; }

    /// <summary>Until when what an earlier run of the service had claimed and not finished is held; null where it left nothing.</summary>
    public DateTimeOffset? HeldUntil { get; init; }

    /// <summary>
    /// Since when the message has waited that has waited longest to be sent; a newer one that takes its place waits since then too, and one
    /// put back since that. Null where none waits, or only such as a ledger of before schema version 6 left untried.
    /// </summary>
    public DateTimeOffset? WaitingSince { get; init; }

    /// <summary>Patients whose charts hold a row that is dated ahead and waits for its time.</summary>
    public long PatientsAhead { get; init; }

    /// <summary>When the first of these rows begins to count; null where there is none.</summary>
    public DateTimeOffset? NextAhead { get; init; }
}
