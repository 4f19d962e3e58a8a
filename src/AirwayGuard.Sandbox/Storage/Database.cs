using System.Globalization;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Sandbox.Storage;

/// <summary>
/// One connection to the one file, used by one caller at a time. SQLite has one writer anyway, and a read that waits
/// for a commit sees a whole transaction or none of it.
/// </summary>
internal sealed class Database : IDisposable
{
    private const int KeptStatements = 400;
    private readonly SqliteConnection connection;
    private readonly Dictionary<string, SqliteCommand> statements = new(StringComparer.Ordinal);
    private int depth;

    public Database(string file, bool waitsForDisk)
    {
        var address = new SqliteConnectionStringBuilder { DataSource = file, Pooling = false };
        connection = new SqliteConnection(address.ConnectionString);
        connection.Open();
        Run($"PRAGMA synchronous={(waitsForDisk ? "FULL" : "OFF")}; PRAGMA journal_mode=WAL; PRAGMA foreign_keys=ON; PRAGMA temp_store=MEMORY;");
        var found = Scalar("PRAGMA user_version");
        if (found > Schema.Version)
        {
            connection.Dispose();
            throw new SandboxFolderException(string.Create(CultureInfo.InvariantCulture,
                $"The server's database has schema {found}, this program knows {Schema.Version}."));
        }

        InTransaction(() =>
        {
            Run(Schema.Create);
            Run(string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version={Schema.Version}"));
            return 0;
        });
    }

    /// <summary>Held for a whole interaction; re-entrant.</summary>
    public Lock Gate { get; } = new();

    /// <summary>Told when work is undone, so that what was remembered from it can be forgotten.</summary>
    public Action? RolledBack { get; set; }

    /// <summary>Runs <paramref name="work"/> all or nothing. Inside another one it is a savepoint.</summary>
    public T InTransaction<T>(Func<T> work)
    {
        var (begin, commit, rollback) = depth == 0
            ? ("BEGIN IMMEDIATE", "COMMIT", "ROLLBACK")
            : ($"SAVEPOINT s{depth}", $"RELEASE s{depth}", $"ROLLBACK TO s{depth}; RELEASE s{depth}");
        Execute(begin);
        depth++;
        var done = false;
        try
        {
            var result = work();
            Execute(commit);
            done = true;
            return result;
        }
        finally
        {
            depth--;
            if (!done)
            {
                Run(rollback);
                RolledBack?.Invoke();
            }
        }
    }

    /// <summary>Executes a statement; parameters are ?1, ?2, … in order. Returns the rows it changed.</summary>
    public int Execute(string sql, params ReadOnlySpan<object> arguments)
    {
        var command = Prepare(sql, arguments);
        return command.ExecuteNonQuery();
    }

    /// <summary>The first column of the first row as a whole number, 0 when there is no row.</summary>
    public long Scalar(string sql, params ReadOnlySpan<object> arguments)
    {
        var command = Prepare(sql, arguments);
        return command.ExecuteScalar() is long value ? value : 0;
    }

    /// <summary>All rows, read to the end before anything else may use the statement.</summary>
    public List<T> Query<T>(string sql, Func<SqliteDataReader, T> read, params ReadOnlySpan<object> arguments)
    {
        var command = Prepare(sql, arguments);
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(read(reader));
        }

        return rows;
    }

    public void Dispose()
    {
        Forget();
        connection.Dispose();
    }

    private SqliteCommand Prepare(string sql, ReadOnlySpan<object> arguments)
    {
        if (!statements.TryGetValue(sql, out var command))
        {
            if (statements.Count >= KeptStatements)
            {
                Forget();
            }

            command = connection.CreateCommand();
            command.CommandText = sql;
            for (var i = 0; i < arguments.Length; i++)
            {
                command.Parameters.AddWithValue(string.Create(CultureInfo.InvariantCulture, $"?{i + 1}"), arguments[i]);
            }

            statements.Add(sql, command);
            return command;
        }

        for (var i = 0; i < arguments.Length; i++)
        {
            command.Parameters[i].Value = arguments[i];
        }

        return command;
    }

    private void Run(string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private void Forget()
    {
        foreach (var command in statements.Values)
        {
            command.Dispose();
        }

        statements.Clear();
    }
}
