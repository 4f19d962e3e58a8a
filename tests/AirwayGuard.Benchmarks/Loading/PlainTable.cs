using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Benchmarks.Loading;

/// <summary>
/// The ledger's facts once more in a table of integers WITHOUT ROWID under the same key, filled in the same order, without
/// indexes, versions or links beside it; read by the shortest loop the engine's interface allows.
/// </summary>
internal sealed class PlainTable : IDisposable
{
    private const string Columns =
        "about, effective_from, position, ordinal, what, known_until, effective_to, row_known, encounter, device, act, row, group_key, shape, digits";

    private const int ColumnCount = 15;

    private readonly SqliteConnection _connection;
    private readonly sqlite3_stmt _select;
    private readonly SqliteCommand _command;

    /// <param name="folder">The ledger's folder; the table gets a file of its own there.</param>
    public PlainTable(string folder)
    {
        _connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, "plain.db"), Pooling = false }.ToString());
        _connection.Open();
        Execute("PRAGMA journal_mode = WAL; PRAGMA cache_size = -16000; PRAGMA mmap_size = 1073741824;");
        using (var attach = _connection.CreateCommand())
        {
            attach.CommandText = "ATTACH $ledger AS ledger";
            attach.Parameters.AddWithValue("$ledger", Path.Combine(folder, "ledger.db"));
            attach.ExecuteNonQuery();
        }

        var definitions = string.Join(", ", Columns.Split(", ").Select(column => column + " INTEGER NOT NULL"));
        Execute($"CREATE TABLE plain ({definitions}, PRIMARY KEY (about, effective_from, position, ordinal, what)) WITHOUT ROWID, STRICT");
        Execute($"INSERT INTO plain ({Columns}) SELECT {Columns} FROM ledger.facts ORDER BY position, ordinal");
        Execute("DETACH ledger; PRAGMA wal_checkpoint(TRUNCATE);");
        var sql = $"SELECT {Columns} FROM plain WHERE about = ?1";
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v2(_connection.Handle, sql, out _select), _connection.Handle);
        _command = _connection.CreateCommand();
        _command.CommandText = sql.Replace("?1", "$about", StringComparison.Ordinal);
        _command.Parameters.Add("$about", SqliteType.Integer);
    }

    /// <summary>All columns of one subject's rows, past the ADO.NET reader.</summary>
    /// <returns>How many rows there were.</returns>
    public long Read(long about)
    {
        var (rows, sum) = (0L, 0L);
        raw.sqlite3_bind_int64(_select, 1, about);
        while (raw.sqlite3_step(_select) == raw.SQLITE_ROW)
        {
            for (var column = 0; column < ColumnCount; column++)
            {
                sum += raw.sqlite3_column_int64(_select, column);
            }

            rows++;
        }

        raw.sqlite3_reset(_select);
        return sum == long.MinValue ? 0 : rows;
    }

    /// <summary>The same through the ADO.NET reader.</summary>
    /// <returns>How many rows there were.</returns>
    public long ReadWithCommand(long about)
    {
        var (rows, sum) = (0L, 0L);
        _command.Parameters[0].Value = about;
        using var reader = _command.ExecuteReader();
        while (reader.Read())
        {
            for (var column = 0; column < ColumnCount; column++)
            {
                sum += reader.GetInt64(column);
            }

            rows++;
        }

        return sum == long.MinValue ? 0 : rows;
    }

    public void Dispose()
    {
        _command.Dispose();
        _select.Dispose();
        _connection.Dispose();
    }

    private void Execute(string sql) => SqliteException.ThrowExceptionForRC(raw.sqlite3_exec(_connection.Handle, sql), _connection.Handle);
}
