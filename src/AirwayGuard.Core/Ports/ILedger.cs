using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.SignOffs;

namespace AirwayGuard.Core.Ports;

/// <summary>
/// What arrived, in the order in which it became known, and what was decided about it. Each verb is one durable commit; no
/// transaction, connection or query language leaves the store. Times are handed in; what a verb appends to the audit trail of
/// itself is stamped by the clock the store was opened with.
/// </summary>
public interface ILedger : IKnownEntities, IAsyncDisposable
{
    /// <summary>Gives entities their numbers; names first seen are saved with the commit that first uses them. Safe for concurrent use.</summary>
    IEntityInterner Entities { get; }

    /// <summary>
    /// Binds the ledger to one server at first use and refuses another afterwards (AG1602 in the answer's problem).
    /// </summary>
    ValueTask<Diagnostics.Problem?> BindAsync(string serverBaseAddress, string serverIdentity, CancellationToken stop);

    /// <summary>
    /// Keeps arrivals in their order, moves the cursor, supersedes what earlier versions said, and marks the patients concerned
    /// for judging, all in one commit. An arrival whose (kind, type, id, version) is known is a duplicate and changes nothing; one
    /// without a version is a duplicate if its body is that of the version that stands, or of one known at the same time, and a
    /// deletion without a version if a deletion stands. What is no resource repeats nothing. A version older than one already
    /// kept (by its number where both are whole numbers, else by <see cref="Arrival.KnownAt"/>, ties by arrival) is kept for history but
    /// supersedes nothing. Where no patient can
    /// be found for a place or a device, the place (else the device) is marked itself. What could not be read is parked in the same
    /// commit under its first problem's code, once.
    /// </summary>
    /// <returns>For each arrival its position, or the position of the one it repeats.</returns>
    ValueTask<IReadOnlyList<KeptArrival>> KeepAsync(IReadOnlyList<ReadArrival> arrivals, SweepCursor? moved, CancellationToken stop);

    ValueTask<SweepCursor?> CursorAsync(string name, CancellationToken stop);

    /// <summary>
    /// Turns due times at or before <paramref name="now"/> into arrivals of kind due, once each, and marks their patients for
    /// judging. Those of a patient who is claimed wait for that judgement, which replaces them.
    /// </summary>
    /// <returns>How many fell due.</returns>
    ValueTask<int> RaiseDueAsync(DateTimeOffset now, CancellationToken stop);

    /// <summary>The earliest due time that has not fallen due; null if none.</summary>
    ValueTask<DateTimeOffset?> NextDueAsync(CancellationToken stop);

    /// <summary>
    /// Puts a basis in force. Where it differs from the one in force, or last judged by, it is kept as an arrival of kind new basis,
    /// and whoever was judged and has an open stay (no end charted, or one to come) is marked for judging. The same again changes
    /// nothing. Writes <c>basis</c>. The rule set's document is kept for good, so that what was judged by it can be judged again.
    /// </summary>
    /// <param name="rules">Null where there is no document of it.</param>
    /// <returns>Since when it is in force.</returns>
    ValueTask<BasisSince> AdoptBasisAsync(string basisSha256, RuleDocument? rules, DateTimeOffset now, CancellationToken stop);

    /// <summary>
    /// Claims one patient to judge, or one outgoing message to send, for the length of the lease; null if there is none free. A patient of
    /// whom something became known within the hour before it was kept goes first, the one that has waited longest before others; then the backlog in
    /// the order of the effective times of what changed, and each fourth claim is the backlog's in any case.
    /// </summary>
    ValueTask<Work?> ClaimAsync(WorkKind kind, TimeSpan lease, DateTimeOffset now, CancellationToken stop);

    /// <summary>A patient's facts and links as known at a position; the window is by effective time and spares timeless facts.</summary>
    ValueTask<TimelineLease> LoadAsync(Entity patient, TimeRange window, Position asKnownAt, CancellationToken stop);

    /// <summary>
    /// What a question needs of a patient's chart as known at a position, which may be far above the newest. What it costs grows with what it
    /// loads, and not with rows of other concepts or with acts.
    /// </summary>
    ValueTask<TimelineLease> LoadAsync(Entity patient, QuestionScope scope, Position asKnownAt, CancellationToken stop);

    /// <summary>How far, as at what time and by what basis a patient was judged last; null for one who never was.</summary>
    ValueTask<JudgedPoint?> LastJudgedAsync(Entity patient, CancellationToken stop);

    /// <summary>What stands recorded about a patient: occurrences and spells.</summary>
    ValueTask<IReadOnlyList<FindingRecord>> FindingsAsync(Entity patient, CancellationToken stop);

    /// <summary>One finding by its key (occurrence or spell), or null.</summary>
    ValueTask<FindingRecord?> FindingAsync(Guid key, CancellationToken stop);

    /// <summary>
    /// Findings, outbox, due times and audit in one commit; refused when the fence is stale, or where a key of a finding is another
    /// patient's. Replaces the patient's due times.
    /// </summary>
    ValueTask<Committed> DecideAsync(Decision decision, CancellationToken stop);

    /// <summary>
    /// Ends a claim to judge that failed. The patient is claimed again at a later time, or is parked under a code; then what is
    /// charted next is tried once, and a judgement that succeeds takes it off what is parked. Refused when the fence is stale.
    /// </summary>
    ValueTask<Committed> FailAsync(FailedJudgement failed, CancellationToken stop);

    /// <summary>
    /// Gives a claim back that came to nothing through no fault of its work, as when the disk is full: it does not count as a try, and may
    /// be claimed again at once. Of a message nobody knows whether it arrived. Refused when the fence is stale.
    /// </summary>
    ValueTask<Committed> ReleaseAsync(Work work, CancellationToken stop);

    /// <summary>
    /// Id and version the server gave when a message of this key was last confirmed. The version is empty where none was, and the
    /// resource was met on the server all the same; null where nobody knows whether it was ever there.
    /// </summary>
    ValueTask<ServerVersion?> LastSentAsync(Guid key, CancellationToken stop);

    /// <summary>A resource of this key was met on the server: whatever was heard of its making, it was made. Changes nothing where its place is known.</summary>
    ValueTask NoteMadeAsync(Guid key, string serverId, CancellationToken stop);

    /// <summary>The outgoing message of a claim.</summary>
    ValueTask<Outgoing?> OutgoingAsync(Guid key, CancellationToken stop);

    /// <summary>
    /// What became of one sending; kept as an arrival of kind receipt. Where the resource is on the server is kept too, also where the
    /// sending is to be tried again. Refused when the fence is stale.
    /// </summary>
    ValueTask<Committed> SettleAsync(Receipt receipt, CancellationToken stop);

    /// <summary>Sets aside what cannot be processed or sent, with its code; nothing is dropped. A claim to send it is ended.</summary>
    ValueTask ParkAsync(ParkedItem item, CancellationToken stop);

    ValueTask<IReadOnlyList<ParkedItem>> ParkedAsync(CancellationToken stop);

    /// <summary>What is set aside, by number, with the first and the latest time.</summary>
    ValueTask<IReadOnlyList<ParkedEntry>> ParkedEntriesAsync(CancellationToken stop);

    /// <summary>
    /// Takes one thing off what is set aside and puts it back: a message waits to be sent again, its attempts counted anew; a patient
    /// whose file could not be judged is marked again; of an arrival <paramref name="readAgain"/> is kept as <see cref="KeepAsync"/> keeps, at a position of its own. Writes <c>parked-retried</c>.
    /// </summary>
    /// <returns>False where nothing of this number is set aside.</returns>
    ValueTask<bool> RetryParkedAsync(long number, ReadArrival? readAgain, CancellationToken stop);

    /// <summary>Takes one thing off what is set aside for good; what arrived stays kept, a message stays unsent. Writes <c>parked-dropped</c> with the reason.</summary>
    /// <returns>False where nothing of this number is set aside.</returns>
    ValueTask<bool> DropParkedAsync(long number, string reason, CancellationToken stop);

    /// <summary>Keeps what a named person did to a rule set, in order, for good, with the set's whole document. Writes <c>signed-off</c> about its hash.</summary>
    /// <param name="document">Null where the ledger has it.</param>
    ValueTask SignOffAsync(SignOff act, RuleDocument? document, CancellationToken stop);

    /// <summary>Everything named persons did to rule sets, oldest first.</summary>
    ValueTask<IReadOnlyList<SignOff>> SignOffsAsync(CancellationToken stop);

    /// <inheritdoc cref="ILedgerReader.RulesAsync"/>
    ValueTask<RuleDocument?> RulesAsync(string sha256, CancellationToken stop);

    /// <inheritdoc cref="ILedgerReader.StandingAsync"/>
    ValueTask<IReadOnlyList<Arrival>> StandingAsync(string type, CancellationToken stop);

    /// <summary>The arrival at a position, with its body; null if its body was purged or it never was.</summary>
    ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop);

    /// <summary>The positions of the kept versions of a resource, oldest first.</summary>
    ValueTask<IReadOnlyList<Position>> VersionsAsync(Entity row, CancellationToken stop);

    /// <summary>The version of a resource that stands, by the rules of <see cref="KeepAsync"/>; null where none was ever kept.</summary>
    ValueTask<StandingVersion?> StandingVersionAsync(Entity row, CancellationToken stop);

    /// <summary>
    /// Uses a token up. True once for an issuer's id until the token is past, over restarts and for all callers together; a token that is past
    /// at <paramref name="now"/> cannot be used. What is past is forgotten, a bounded number of tokens a call. Writes nothing in the trail.
    /// </summary>
    ValueTask<bool> UseTokenAsync(UsedToken token, DateTimeOffset now, CancellationToken stop);

    /// <summary>
    /// Keeps the cards of answers for good, and appends the note of each to the trail in this order, also where it has no cards; all of them or
    /// none. A card whose id is known stays as it is: the same was asked again.
    /// </summary>
    ValueTask AnswerAsync(IReadOnlyList<HookAnswer> answers, CancellationToken stop);

    /// <summary>
    /// Keeps what was done with cards of a service, as reported. A report repeats another of the same card, outcome and time. Writes
    /// <c>card-answered</c> about each card whose report is kept, without what a person wrote; where none is, nothing is written.
    /// </summary>
    /// <param name="now">When the reports came.</param>
    /// <returns>What became of each, in their order.</returns>
    ValueTask<IReadOnlyList<FeedbackKept>> KeepFeedbackAsync(string service, IReadOnlyList<CardFeedback> feedback, DateTimeOffset now, CancellationToken stop);

    /// <summary>Replay: patient by patient, in bounded memory, with the points at which each was judged.</summary>
    IAsyncEnumerable<PatientHistory> HistoryAsync(HistoryRange range, CancellationToken stop);

    /// <summary>
    /// Appends entries to the audit chain besides those that verbs append themselves: <c>bound</c>, <c>kept</c>, <c>due</c>,
    /// <c>sent</c>, <c>parked</c>, <c>card-answered</c>, and the notes of a decision or an answer.
    /// </summary>
    ValueTask<AuditHead> AuditAsync(IReadOnlyList<AuditNote> notes, DateTimeOffset now, CancellationToken stop);

    /// <summary>The audit chain from its first entry.</summary>
    IAsyncEnumerable<AuditEntry> AuditTrailAsync(CancellationToken stop);

    /// <summary>Whether what is written goes where the ledger was opened; AG1608 where its place is empty or holds something else by now.</summary>
    ValueTask<Diagnostics.Problem?> PlaceAsync(CancellationToken stop);

    /// <summary>How things stand: newest position, patients waiting, outbox by state, parked.</summary>
    ValueTask<LedgerState> StateAsync(CancellationToken stop);
}
