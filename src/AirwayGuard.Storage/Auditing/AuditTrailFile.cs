using System.Runtime.CompilerServices;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Schema;
using AirwayGuard.Storage.Sql;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Storage.Auditing;

/// <summary>The audit trail of a ledger's folder, for reading alone: also while a service writes it, and changing nothing.</summary>
public sealed class AuditTrailFile : IDisposable
{
    private const int PageSize = 1000;

    private readonly Database _database;

    private AuditTrailFile(Database database) => _database = database;

    /// <param name="folder">The ledger's folder.</param>
    /// <exception cref="LedgerException">AG1603 written by a newer program, AG1604 not readable, AG1605 damaged, AG1606 no ledger there.</exception>
    public static AuditTrailFile Open(string folder)
    {
        var file = Path.Combine(folder, "ledger.db");
        if (!File.Exists(file))
        {
            throw new LedgerException(new Problem(Codes.LedgerMissing, "--data", "There is no ledger in the folder."));
        }

        Database? database = null;
        try
        {
            database = Database.OpenReader(file);
            var newest = new SqliteLedgerOptions().Migrations[^1].Version;
            if (MigrationRunner.VersionOf(database) is var version && version > newest)
            {
                throw new LedgerException(new Problem(Codes.LedgerNewer, "ledger", $"The ledger has schema version {version}, this program knows {newest}."));
            }

            return new AuditTrailFile(database);
        }
        catch (SqliteException unreadable)
        {
            database?.Dispose();
            throw Refused(unreadable);
        }
        catch (LedgerException)
        {
            database?.Dispose();
            throw;
        }
    }

    /// <summary>From the first entry to the last one written when the end is reached.</summary>
    public async IAsyncEnumerable<AuditEntry> ReadAsync([EnumeratorCancellation] CancellationToken stop)
    {
        for (var last = 0L; ;)
        {
            stop.ThrowIfCancellationRequested();
            var page = PageAfter(last);
            foreach (var entry in page)
            {
                yield return entry;
            }

            if (page.Count < PageSize)
            {
                yield break;
            }

            last = page[^1].Number;
            await Task.Yield();
        }
    }

    public void Dispose() => _database.Dispose();

    private List<AuditEntry> PageAfter(long last)
    {
        try
        {
            return AuditRows.After(_database, last, PageSize);
        }
        catch (SqliteException unreadable)
        {
            throw Refused(unreadable);
        }
    }

    private static LedgerException Refused(SqliteException unreadable) => new(
        unreadable.SqliteErrorCode is SQLitePCL.raw.SQLITE_CORRUPT or SQLitePCL.raw.SQLITE_NOTADB or SQLitePCL.raw.SQLITE_ERROR
            ? new Problem(Codes.LedgerDamaged, "ledger", "The ledger's file could not be read.")
            : new Problem(Codes.LedgerUnwritable, "ledger", "The ledger's file could not be opened."),
        unreadable);
}
