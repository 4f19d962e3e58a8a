using System.Runtime.CompilerServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.SignOffs;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.Storage.Entities;
using AirwayGuard.Storage.Reading;
using AirwayGuard.Storage.Schema;
using AirwayGuard.Storage.Sql;
using AirwayGuard.Storage.Writing;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Storage;

/// <summary>The ledger on SQLite: one writer thread that commits groups, readers beside it that never wait.</summary>
public sealed class SqliteLedger : ILedger
{
    private const int AuditPage = 1000;

    // Facts of the charts that were asked about lately, about 120 bytes each.
    private const int MostHeld = 200_000;

    private readonly FolderLock? _lock;
    private readonly EntityStore _entities;
    private readonly ReadPool _readers;
    private readonly QuestionReader _questions;
    private readonly Database _writing;
    private readonly GroupWriter _writer;
    private readonly Action<byte[]> _fillSalt;
    private readonly DateTimeOffset? _heldUntil;
    private readonly LedgerPlace _place;
    private bool _closed;

    private SqliteLedger(string file, FolderLock? folderLock, Database writing, SqliteLedgerOptions options, TimeProvider clock)
    {
        _lock = folderLock;
        _writing = writing;
        _entities = new EntityStore(file, options);
        _readers = new ReadPool(file);
        _place = new LedgerPlace(file);
        _fillSalt = options.FillSalt;
        _heldUntil = StateReader.HeldUntil(writing);
        var held = options.Shared ? null : new HeldReads(MostHeld);
        _questions = new QuestionReader(_readers, held);
        _writer = new GroupWriter(new WriteSession(writing, _entities, clock, options.FillSalt, held), options.MostVerbsPerCommit);
    }

    /// <inheritdoc />
    public IEntityInterner Entities => _entities;

    /// <summary>Opens the ledger of a folder, making both where they are missing, and brings its schema forward.</summary>
    /// <param name="folder">On a local disk; the ledger is <c>ledger.db</c> with its companions, and <c>ledger.lock</c>.</param>
    /// <param name="clock">Stamps audit entries and migrations; what is judged or due goes by the times handed to the verbs.</param>
    /// <exception cref="LedgerException">AG1601 in use, AG1603 written by a newer program, AG1604 folder not usable, AG1605 file damaged.</exception>
    public static ValueTask<SqliteLedger> OpenAsync(string folder, SqliteLedgerOptions options, TimeProvider clock)
    {
        SqliteLedgerOptions.Check(options);
        FolderLock? folderLock = null;
        Database? writing = null;
        try
        {
            Create(folder);
            folderLock = options.Shared ? null : FolderLock.Take(folder);
            var file = LedgerFile.MadeIn(folder, folderLock?.WasKept == true);
            writing = Database.OpenWriter(file, options.WaitsForDisk);
            if (writing.IsReadOnly)
            {
                throw new LedgerException(OpeningTrouble.NotWritable);
            }

            Soundness.Check(writing, file, options.LooksThroughUpTo);
            MigrationRunner.Run(writing, options.Migrations, clock.GetUtcNow());
            folderLock?.Mark();
            return ValueTask.FromResult(new SqliteLedger(file, folderLock, writing, options, clock));
        }
        catch (Exception trouble)
        {
            writing?.Dispose();
            folderLock?.Dispose();
            if (LedgerFile.Refused(trouble) is { } refused)
            {
                throw refused;
            }

            throw;
        }
    }

    /// <inheritdoc />
    public string NameOf(Entity entity) => _entities.NameOf(entity);

    /// <inheritdoc />
    public string IdentityOf(Entity entity) => _entities.IdentityOf(entity);

    /// <inheritdoc />
    public bool TryFind(EntityKind kind, ReadOnlySpan<byte> utf8Name, out Entity entity) => _entities.TryFind(kind, utf8Name, out entity);

    /// <inheritdoc />
    public async ValueTask<Problem?> BindAsync(string serverBaseAddress, string serverIdentity, CancellationToken stop)
    {
        try
        {
            return await _writer.RunAsync(session => Binding.Run(session, serverBaseAddress, serverIdentity), stop);
        }
        catch (SqliteException trouble) when (LedgerFile.TroubleOf(trouble) is { } problem)
        {
            // The first commit of a run: it reads what opening does not, as the ends of the arrivals and of the audit trail.
            throw new LedgerException(problem, trouble);
        }
    }

    /// <inheritdoc />
    public async ValueTask<IReadOnlyList<KeptArrival>> KeepAsync(IReadOnlyList<ReadArrival> arrivals, SweepCursor? moved, CancellationToken stop) =>
        await _writer.RunAsync(Keeping(arrivals, moved).Run, stop);

    /// <inheritdoc />
    public async ValueTask<bool> UseTokenAsync(UsedToken token, DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(session => UsedTokens.Use(session.Database, token, now), stop);

    /// <inheritdoc />
    public async ValueTask AnswerAsync(IReadOnlyList<HookAnswer> answers, CancellationToken stop)
    {
        var names = new List<KnownEntity>();
        _entities.PendingAmong(answers.Select(static answer => answer.Patient).Distinct(), names);
        await _writer.RunAsync(session => Cards.Answer(session, answers, names), stop);
    }

    /// <inheritdoc />
    public async ValueTask<IReadOnlyList<FeedbackKept>> KeepFeedbackAsync(string service, IReadOnlyList<CardFeedback> feedback, DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(session => CardFeedbackRows.Keep(session, service, feedback, now), stop);

    /// <inheritdoc />
    public ValueTask<StandingVersion?> StandingVersionAsync(Entity row, CancellationToken stop) => ValueTask.FromResult(_questions.VersionOf(row));

    private KeepVerb Keeping(IReadOnlyList<ReadArrival> arrivals, SweepCursor? moved)
    {
        var prepared = new PreparedArrival[arrivals.Count];
        for (var i = 0; i < prepared.Length; i++)
        {
            prepared[i] = PreparedArrival.Of(arrivals[i], _entities, _fillSalt);
        }

        var names = new List<KnownEntity>();
        if (_entities.HasPending)
        {
            _entities.PendingAmong(prepared.SelectMany(p => p.Entities()), names);
        }

        return new KeepVerb(prepared, names, moved);
    }

    /// <inheritdoc />
    public ValueTask<SweepCursor?> CursorAsync(string name, CancellationToken stop) => Read(database =>
    {
        using var row = database.Prepared("SELECT server_time, last_id FROM cursors WHERE name = ?1");
        return row.Bind(1, name).Step() ? new SweepCursor(name, new DateTimeOffset(row.Long(0), TimeSpan.Zero), row.TextOrNull(1)) : null;
    });

    /// <inheritdoc />
    public async ValueTask<int> RaiseDueAsync(DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(session => RaiseDueVerb.Run(session, now), stop);

    /// <inheritdoc />
    public ValueTask<DateTimeOffset?> NextDueAsync(CancellationToken stop) => Read<DateTimeOffset?>(database =>
    {
        using var row = database.Prepared("SELECT min(at) FROM due");
        return row.Step() && row.LongOrNull(0) is { } at ? new DateTimeOffset(at, TimeSpan.Zero) : null;
    });

    /// <inheritdoc />
    public async ValueTask<BasisSince> AdoptBasisAsync(string basisSha256, RuleDocument? rules, DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(session => AdoptBasisVerb.Run(session, basisSha256, rules, now), stop);

    /// <inheritdoc />
    public async ValueTask<Work?> ClaimAsync(WorkKind kind, TimeSpan lease, DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(session => kind == WorkKind.Judge ? ClaimVerb.Judge(session, lease, now) : ClaimVerb.Send(session, lease, now), stop);

    /// <inheritdoc />
    public ValueTask<TimelineLease> LoadAsync(Entity patient, TimeRange window, Position asKnownAt, CancellationToken stop) =>
        Read(database => TimelineLoader.Load(database, patient, window, asKnownAt));

    /// <inheritdoc />
    public ValueTask<TimelineLease> LoadAsync(Entity patient, QuestionScope scope, Position asKnownAt, CancellationToken stop) =>
        ValueTask.FromResult(_questions.Load(patient, scope, asKnownAt));

    /// <inheritdoc />
    public ValueTask<JudgedPoint?> LastJudgedAsync(Entity patient, CancellationToken stop) => Read<JudgedPoint?>(database =>
    {
        using var row = database.Prepared("SELECT j.up_to, j.as_of, b.sha256 FROM judged j JOIN bases b ON b.basis = j.basis WHERE j.subject = ?1 ORDER BY j.fence DESC LIMIT 1");
        return row.Bind(1, patient.Packed).Step() ? new JudgedPoint(new Position(row.Long(0)), row.Long(1), row.Text(2)) : null;
    });

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<FindingRecord>> FindingsAsync(Entity patient, CancellationToken stop) =>
        Read<IReadOnlyList<FindingRecord>>(database => FindingRow.OfPatient(database, patient));

    /// <inheritdoc />
    public ValueTask<FindingRecord?> FindingAsync(Guid key, CancellationToken stop) => Read(database =>
    {
        using var row = database.Prepared(FindingRow.Select + "WHERE f.key = ?1");
        return row.Bind(1, key).Step() ? FindingRow.Read(row) : null;
    });

    /// <inheritdoc />
    public async ValueTask<Committed> DecideAsync(Decision decision, CancellationToken stop) =>
        await _writer.RunAsync(session => DecideVerb.Run(session, decision), stop);

    /// <inheritdoc />
    public async ValueTask<Committed> FailAsync(FailedJudgement failed, CancellationToken stop) =>
        await _writer.RunAsync(session => FailVerb.Run(session, failed), stop);

    /// <inheritdoc />
    public async ValueTask<Committed> ReleaseAsync(Work work, CancellationToken stop) =>
        await _writer.RunAsync(session => ReleaseVerb.Run(session, work), stop);

    /// <inheritdoc />
    public ValueTask<ServerVersion?> LastSentAsync(Guid key, CancellationToken stop) => Read(database => Outbox.LastSent(database, key));

    /// <inheritdoc />
    public async ValueTask NoteMadeAsync(Guid key, string serverId, CancellationToken stop) =>
        await _writer.RunAsync(session => Outbox.NoteMade(session.Database, key, serverId), stop);

    /// <inheritdoc />
    public ValueTask<Outgoing?> OutgoingAsync(Guid key, CancellationToken stop) => Read(database => Outbox.Read(database, key));

    /// <inheritdoc />
    public async ValueTask<Committed> SettleAsync(Receipt receipt, CancellationToken stop)
    {
        var arrival = SettleVerb.ArrivalOf(receipt);
        return await _writer.RunAsync(session => SettleVerb.Run(session, receipt, PreparedArrival.OfOwn(arrival, session.NewSalt())), stop);
    }

    /// <inheritdoc />
    public async ValueTask ParkAsync(ParkedItem item, CancellationToken stop) => await _writer.RunAsync(session => Parking.Park(session, item), stop);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<ParkedItem>> ParkedAsync(CancellationToken stop) => Read<IReadOnlyList<ParkedItem>>(Parking.Read);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<ParkedEntry>> ParkedEntriesAsync(CancellationToken stop) => Read<IReadOnlyList<ParkedEntry>>(Parking.Entries);

    /// <inheritdoc />
    public async ValueTask<bool> RetryParkedAsync(long number, ReadArrival? readAgain, CancellationToken stop)
    {
        var keep = readAgain is null ? null : Keeping([readAgain], null);
        return await _writer.RunAsync(session => Parking.Retry(session, number, keep), stop);
    }

    /// <inheritdoc />
    public async ValueTask<bool> DropParkedAsync(long number, string reason, CancellationToken stop) =>
        await _writer.RunAsync(session => Parking.Drop(session, number, reason), stop);

    /// <inheritdoc />
    public async ValueTask SignOffAsync(SignOff act, RuleDocument? document, CancellationToken stop) =>
        await _writer.RunAsync(session => SignOffRows.Add(session, act, document), stop);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<SignOff>> SignOffsAsync(CancellationToken stop) => Read<IReadOnlyList<SignOff>>(SignOffRows.Read);

    /// <inheritdoc />
    public ValueTask<RuleDocument?> RulesAsync(string sha256, CancellationToken stop) => Read(database => Documents.Read(database, sha256));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<Arrival>> StandingAsync(string type, CancellationToken stop) => Read(database => StandingReader.OfType(database, type));

    /// <inheritdoc />
    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) => Read(database => ArrivalRow.Read(database, position));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<Position>> VersionsAsync(Entity row, CancellationToken stop) => Read<IReadOnlyList<Position>>(database =>
    {
        using var rows = database.Prepared("SELECT position FROM arrivals WHERE row = ?1 ORDER BY known_at, position");
        rows.Bind(1, row.Packed);
        var versions = new List<Position>();
        while (rows.Step())
        {
            versions.Add(new Position(rows.Long(0)));
        }

        return versions;
    });

    /// <inheritdoc />
    public IAsyncEnumerable<PatientHistory> HistoryAsync(HistoryRange range, CancellationToken stop) => HistoryReader.Read(_readers, range, stop);

    /// <inheritdoc />
    public async ValueTask<AuditHead> AuditAsync(IReadOnlyList<AuditNote> notes, DateTimeOffset now, CancellationToken stop) =>
        await _writer.RunAsync(
            session =>
            {
                foreach (var note in notes)
                {
                    session.Audit(note, now);
                }

                return session.Head;
            },
            stop);

    /// <inheritdoc />
    public async IAsyncEnumerable<AuditEntry> AuditTrailAsync([EnumeratorCancellation] CancellationToken stop)
    {
        for (var last = 0L; ;)
        {
            var page = await Read(database => AuditRows.After(database, last, AuditPage));
            foreach (var entry in page)
            {
                stop.ThrowIfCancellationRequested();
                yield return entry;
            }

            if (page.Count < AuditPage)
            {
                yield break;
            }

            last = page[^1].Number;
        }
    }

    /// <inheritdoc />
    public ValueTask<LedgerState> StateAsync(CancellationToken stop) => Read(database => StateReader.Read(database) with { HeldUntil = _heldUntil });

    /// <inheritdoc />
    public ValueTask<Problem?> PlaceAsync(CancellationToken stop) => ValueTask.FromResult(_place.Trouble());

    /// <summary>Finishes what was asked for, and closes.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_closed)
        {
            return;
        }

        _closed = true;
        await _writer.DisposeAsync();
        _readers.Dispose();
        _place.Dispose();
        _entities.Dispose();
        _writing.Dispose();
        _lock?.Dispose();
    }

    private static void Create(string folder)
    {
        try
        {
            OwnRights.MakeFolder(folder);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new LedgerException(new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The ledger's folder cannot be made."), trouble);
        }
    }

    private ValueTask<T> Read<T>(Func<Database, T> read)
    {
        using var lease = _readers.Rent();
        return ValueTask.FromResult(read(lease.Database));
    }
}
