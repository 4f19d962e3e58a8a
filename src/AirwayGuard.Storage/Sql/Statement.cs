using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Storage.Sql;

/// <summary>
/// A prepared statement, reused. Parameters count from 1, columns from 0. <see cref="Dispose"/> resets it for its next use;
/// the database it came from finalizes it. It goes past the ADO.NET reader because that one costs more per row than the row.
/// </summary>
internal sealed class Statement(sqlite3 connection, sqlite3_stmt handle) : IDisposable
{
    public Statement Bind(int index, long value)
    {
        Check(raw.sqlite3_bind_int64(handle, index, value));
        return this;
    }

    public Statement Bind(int index, long? value) => value is { } known ? Bind(index, known) : BindNull(index);

    public Statement Bind(int index, string? value)
    {
        if (value is null)
        {
            return BindNull(index);
        }

        Check(raw.sqlite3_bind_text(handle, index, value));
        return this;
    }

    public Statement BindText(int index, ReadOnlySpan<byte> utf8)
    {
        Check(utf8.IsEmpty ? raw.sqlite3_bind_text(handle, index, "") : raw.sqlite3_bind_text(handle, index, utf8));
        return this;
    }

    public Statement Bind(int index, ReadOnlySpan<byte> value)
    {
        Check(value.IsEmpty ? raw.sqlite3_bind_zeroblob(handle, index, 0) : raw.sqlite3_bind_blob(handle, index, value));
        return this;
    }

    public Statement Bind(int index, Guid value)
    {
        Span<byte> bytes = stackalloc byte[16];
        value.TryWriteBytes(bytes, bigEndian: true, out _);
        return Bind(index, bytes);
    }

    public Statement Bind(int index, Guid? value) => value is { } known ? Bind(index, known) : BindNull(index);

    /// <summary>True while there is a row.</summary>
    public bool Step()
    {
        var result = raw.sqlite3_step(handle);
        if (result == raw.SQLITE_ROW)
        {
            return true;
        }

        Check(result == raw.SQLITE_DONE ? raw.SQLITE_OK : result);
        return false;
    }

    /// <summary>Runs a statement that gives no rows and resets it.</summary>
    /// <returns>How many rows it changed.</returns>
    public int Run()
    {
        using (this)
        {
            Step();
            return raw.sqlite3_changes(connection);
        }
    }

    public long Long(int column) => raw.sqlite3_column_int64(handle, column);

    public int Int(int column) => raw.sqlite3_column_int(handle, column);

    public bool IsNull(int column) => raw.sqlite3_column_type(handle, column) == raw.SQLITE_NULL;

    public long? LongOrNull(int column) => IsNull(column) ? null : Long(column);

    public string Text(int column) => raw.sqlite3_column_text(handle, column).utf8_to_string() ?? "";

    public string? TextOrNull(int column) => IsNull(column) ? null : Text(column);

    /// <summary>Valid until the next step.</summary>
    public ReadOnlySpan<byte> Blob(int column) => raw.sqlite3_column_blob(handle, column);

    public Guid Guid(int column) => new(Blob(column), bigEndian: true);

    public void Dispose()
    {
        // The error of a failed step was thrown by it; reset only repeats it.
        _ = raw.sqlite3_reset(handle);
        _ = raw.sqlite3_clear_bindings(handle);
    }

    /// <summary>Instructions it has run since it was prepared: what a query costs whatever the machine, each row it steps over included.</summary>
    public long Instructions => raw.sqlite3_stmt_status(handle, raw.SQLITE_STMTSTATUS_VM_STEP, 0);

    public void Finish() => handle.Dispose();

    private Statement BindNull(int index)
    {
        Check(raw.sqlite3_bind_null(handle, index));
        return this;
    }

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, connection);
}
