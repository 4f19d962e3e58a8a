using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Storage.Sql;

/// <summary>One connection with its prepared statements. Not safe for concurrent use.</summary>
internal sealed class Database : IDisposable
{
    private readonly SqliteConnection _connection;
    private readonly Dictionary<string, Statement> _statements = new(StringComparer.Ordinal);
    private readonly List<Statement> _all = [];

    private Database(SqliteConnection connection) => _connection = connection;

    /// <summary>Opens for writing: WAL, each commit on disk before it is acknowledged, unless the disk is not waited for.</summary>
    public static Database OpenWriter(string file, bool waitsForDisk) =>
        Open(file, SqliteOpenMode.ReadWriteCreate, $"PRAGMA synchronous = {(waitsForDisk ? "FULL" : "OFF")}; PRAGMA journal_mode = WAL; PRAGMA wal_autocheckpoint = 8000; PRAGMA cache_size = -64000; PRAGMA temp_store = MEMORY;");

    /// <summary>Opens for reading, also beside a writer in another process.</summary>
    public static Database OpenReader(string file) =>
        Open(file, SqliteOpenMode.ReadOnly, "PRAGMA query_only = ON; PRAGMA cache_size = -16000; PRAGMA mmap_size = 1073741824;");

    /// <summary>A statement kept for the life of the connection; used in a <c>using</c>, which resets it.</summary>
    public Statement Prepared(string sql)
    {
        if (!_statements.TryGetValue(sql, out var statement))
        {
            statement = Prepare(sql);
            _statements.Add(sql, statement);
        }

        return statement;
    }

    /// <summary>A statement of its own, for a caller that holds several open at once.</summary>
    public Statement Prepare(string sql)
    {
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v2(_connection.Handle, sql, out var handle), _connection.Handle);
        var statement = new Statement(_connection.Handle!, handle);
        _all.Add(statement);
        return statement;
    }

    /// <summary>No transaction is open: none was begun, or the database undid it by itself.</summary>
    public bool IsOutside => raw.sqlite3_get_autocommit(_connection.Handle) != 0;

    /// <summary>SQLite opens a file that it may not write to for reading alone, and says so at the first write only.</summary>
    public bool IsReadOnly => raw.sqlite3_db_readonly(_connection.Handle, "main") == 1;

    public void Execute(string sql) => SqliteException.ThrowExceptionForRC(raw.sqlite3_exec(_connection.Handle, sql), _connection.Handle);

    /// <summary>Instructions that all its statements have run so far.</summary>
    public long Instructions => _all.Sum(static statement => statement.Instructions);

    public void Dispose()
    {
        foreach (var statement in _all)
        {
            statement.Finish();
        }

        _connection.Dispose();
    }

    private static Database Open(string file, SqliteOpenMode mode, string settings)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Mode = mode, Pooling = false }.ToString());
        try
        {
            connection.Open();
            var database = new Database(connection);
            database.Execute("PRAGMA busy_timeout = 30000;" + settings);
            return database;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }
}
