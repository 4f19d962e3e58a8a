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

/// <summary>A ledger on SQLite, only read. The folder's lock is left alone, so that it works while a service writes.</summary>
public sealed class SqliteLedgerReader : ILedgerReader
{
    private readonly EntityStore _entities;
    private readonly ReadPool _readers;

    private SqliteLedgerReader(string file)
    {
        _entities = new EntityStore(file, new SqliteLedgerOptions());
        _readers = new ReadPool(file);
    }

    /// <param name="folder">Holds <c>ledger.db</c>.</param>
    /// <exception cref="LedgerException">AG1603 newer, AG1604 not to be opened, AG1605 damaged, AG1606 no ledger, AG1607 older.</exception>
    public static SqliteLedgerReader Open(string folder)
    {
        var file = LedgerFile.Existing(folder);
        try
        {
            CheckVersion(file);
            return new SqliteLedgerReader(file);
        }
        catch (SqliteException trouble)
        {
            // What has not even the table of schema versions is no ledger.
            throw LedgerFile.Refused(trouble) ?? new LedgerException(OpeningTrouble.Damaged, trouble);
        }
    }

    /// <inheritdoc />
    public string NameOf(Entity entity) => _entities.NameOf(entity);

    /// <inheritdoc />
    public string IdentityOf(Entity entity) => _entities.IdentityOf(entity);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<FindingRecord>> FindAsync(string firstDigits, int most, CancellationToken stop)
    {
        if (firstDigits.Length is < 4 or > 32 || !firstDigits.All(char.IsAsciiHexDigit))
        {
            throw new ArgumentException("4 to 32 hexadecimal digits.", nameof(firstDigits));
        }

        var (first, last) = (Guid.ParseExact(firstDigits.PadRight(32, '0'), "N"), Guid.ParseExact(firstDigits.PadRight(32, 'f'), "N"));
        return Read<IReadOnlyList<FindingRecord>>(database => FindingRow.Between(database, first, last, most));
    }

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<FindingRecord>> FindingsAsync(Entity patient, CancellationToken stop) =>
        Read<IReadOnlyList<FindingRecord>>(database => FindingRow.OfPatient(database, patient));

    /// <inheritdoc />
    public ValueTask<TimelineLease> LoadAsync(Entity patient, TimeRange window, Position asKnownAt, CancellationToken stop) =>
        Read(database => TimelineLoader.Load(database, patient, window, asKnownAt));

    /// <inheritdoc />
    public ValueTask<Arrival?> ArrivalAsync(Position position, CancellationToken stop) => Read(database => ArrivalRow.Read(database, position));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<JudgedPoint>> JudgedAsync(Entity patient, CancellationToken stop) =>
        Read<IReadOnlyList<JudgedPoint>>(database => HistoryReader.JudgedAt(database, patient, Position.Never));

    /// <inheritdoc />
    public ValueTask<RuleDocument?> RulesAsync(string sha256, CancellationToken stop) => Read(database => Documents.Read(database, sha256));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<SignOff>> SignOffsAsync(CancellationToken stop) => Read<IReadOnlyList<SignOff>>(SignOffRows.Read);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<AuditEntry>> AuditOfAsync(string subject, CancellationToken stop) =>
        Read<IReadOnlyList<AuditEntry>>(database => AuditRows.About(database, subject));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<Entity>> OutletsAsync(CancellationToken stop) => Read(StandingReader.Outlets);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<Arrival>> StandingAsync(string type, CancellationToken stop) => Read(database => StandingReader.OfType(database, type));

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<ParkedEntry>> ParkedAsync(CancellationToken stop) => Read<IReadOnlyList<ParkedEntry>>(Parking.Entries);

    /// <inheritdoc />
    public ValueTask<IReadOnlyList<CardHistory>> CardsAsync(DateTimeOffset from, DateTimeOffset to, CancellationToken stop) =>
        Read(database => CardReader.Between(database, from, to));

    /// <inheritdoc />
    public ValueTask DisposeAsync()
    {
        _readers.Dispose();
        _entities.Dispose();
        return ValueTask.CompletedTask;
    }

    private static void CheckVersion(string file)
    {
        using var database = Database.OpenReader(file);
        var (written, known) = (MigrationRunner.VersionOf(database), Migration.Embedded[^1].Version);
        if (written != known)
        {
            throw new LedgerException(new Problem(
                written > known ? Codes.LedgerNewer : Codes.LedgerOlder, "--data", $"The ledger has schema version {written}, this program knows {known}."));
        }
    }

    private ValueTask<T> Read<T>(Func<Database, T> read)
    {
        using var lease = _readers.Rent();
        return ValueTask.FromResult(read(lease.Database));
    }
}
