using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Schema;

/// <summary>Brings a database forward, one commit a step, and refuses one that a newer program has written.</summary>
internal static class MigrationRunner
{
    /// <exception cref="LedgerException">The database's schema is newer than the last of the migrations.</exception>
    public static void Run(Database database, IReadOnlyList<Migration> migrations, DateTimeOffset now)
    {
        database.Execute("CREATE TABLE IF NOT EXISTS schema_version (version INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at INTEGER NOT NULL) STRICT");
        var current = VersionOf(database);
        var newest = migrations.Count == 0 ? 0 : migrations[^1].Version;
        if (current > newest)
        {
            throw new LedgerException(new Problem(Codes.LedgerNewer, "ledger", $"The ledger has schema version {current}, this program knows {newest}."));
        }

        foreach (var migration in migrations.Where(m => m.Version > current))
        {
            Apply(database, migration, now);
        }
    }

    public static int VersionOf(Database database)
    {
        var version = database.Prepared("SELECT coalesce(max(version), 0) FROM schema_version");
        using (version)
        {
            version.Step();
            return (int)version.Long(0);
        }
    }

    public static bool HasTable(Database database, string table)
    {
        using var found = database.Prepared("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?1");
        return found.Bind(1, table).Step();
    }

    private static void Apply(Database database, Migration migration, DateTimeOffset now)
    {
        database.Execute("BEGIN IMMEDIATE");
        try
        {
            // Another ledger object on the same file may have come first.
            if (VersionOf(database) < migration.Version)
            {
                database.Execute(migration.Sql);
                using var done = database.Prepared("INSERT INTO schema_version (version, name, applied_at) VALUES (?1, ?2, ?3)");
                done.Bind(1, migration.Version).Bind(2, migration.Name).Bind(3, now.UtcTicks).Step();
            }

            database.Execute("COMMIT");
        }
        catch
        {
            database.Execute("ROLLBACK");
            throw;
        }
    }
}
