using AirwayGuard.Core.Ports;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Benchmarks.Intake;

/// <summary>
/// The least that keeps an arrival: one table, one unique key, the body as received, with the durability and page cache of the
/// ledger's writer.
/// </summary>
internal sealed class RawInbox : IDisposable
{
    private readonly SqliteConnection _connection;
    private readonly sqlite3_stmt _insert;

    public RawInbox(string folder)
    {
        _connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, "inbox.db"), Pooling = false }.ToString());
        _connection.Open();
        Execute("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA wal_autocheckpoint = 8000; PRAGMA cache_size = -64000; PRAGMA temp_store = MEMORY;");
        Execute("CREATE TABLE inbox (position INTEGER PRIMARY KEY, type TEXT NOT NULL, id TEXT NOT NULL, version TEXT NOT NULL, known_at INTEGER NOT NULL, body BLOB NOT NULL, UNIQUE (type, id, version)) STRICT");
        SqliteException.ThrowExceptionForRC(
            raw.sqlite3_prepare_v2(_connection.Handle, "INSERT INTO inbox (type, id, version, known_at, body) VALUES (?1, ?2, ?3, ?4, ?5)", out _insert), _connection.Handle);
    }

    /// <summary>Appends a group in one durable commit.</summary>
    public void Append(IReadOnlyList<ReadArrival> group)
    {
        Execute("BEGIN IMMEDIATE");
        foreach (var (arrival, _) in group)
        {
            raw.sqlite3_bind_text(_insert, 1, arrival.Type);
            raw.sqlite3_bind_text(_insert, 2, arrival.Id);
            raw.sqlite3_bind_text(_insert, 3, arrival.Version);
            raw.sqlite3_bind_int64(_insert, 4, arrival.KnownAt.UtcTicks);
            raw.sqlite3_bind_blob(_insert, 5, arrival.Body.Span);
            if (raw.sqlite3_step(_insert) != raw.SQLITE_DONE)
            {
                throw new InvalidOperationException("A row was not appended.");
            }

            raw.sqlite3_reset(_insert);
        }

        Execute("COMMIT");
    }

    public void Dispose()
    {
        _insert.Dispose();
        _connection.Dispose();
    }

    private void Execute(string sql) => SqliteException.ThrowExceptionForRC(raw.sqlite3_exec(_connection.Handle, sql), _connection.Handle);
}
