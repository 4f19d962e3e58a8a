using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage.Schema;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage;

/// <summary>Looks a ledger's file through before it is used: a damaged page is met by whoever reads it otherwise, and perhaps by nobody for weeks.</summary>
internal static class Soundness
{
    // What each judging and sending goes by; of a few thousand rows, however large the ledger grows.
    private static readonly string[] Small = ["binding", "bases", "cursors", "subjects", "due", "outbox", "parked", "schema_version"];

    /// <param name="wholeUpTo">Bytes up to which all of the file is read; of a larger one only what is small and always used.</param>
    /// <exception cref="LedgerException">AG1605.</exception>
    public static void Check(Database database, string file, long wholeUpTo)
    {
        if (new FileInfo(file).Length <= wholeUpTo)
        {
            Look(database, "PRAGMA quick_check(1)");
            return;
        }

        foreach (var table in Small.Where(table => MigrationRunner.HasTable(database, table)))
        {
            Look(database, $"PRAGMA quick_check('{table}')");
        }
    }

    // A problem that is met on the way is thrown by SQLite itself, and told as the same.
    private static void Look(Database database, string pragma)
    {
        using var said = database.Prepare(pragma);
        if (said.Step() && said.Text(0) != "ok")
        {
            throw new LedgerException(OpeningTrouble.Damaged);
        }
    }
}
