using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Storage;

/// <summary>Whether a failure says that there is no room left where the ledger lies. What failed so is undone whole and may be tried again.</summary>
public static class DiskFull
{
    // Errors of the system for a file that finds no room: ENOSPC, and ERROR_DISK_FULL in the form of a result.
    private const int NoSpace = 28, WindowsDiskFull = unchecked((int)0x80070070);

    /// <summary>Also where another exception carries it.</summary>
    public static bool IsMeantBy(Exception trouble) => trouble switch
    {
        SqliteException { SqliteErrorCode: raw.SQLITE_FULL } => true,
        // The index of the write-ahead log could not grow.
        SqliteException { SqliteExtendedErrorCode: raw.SQLITE_IOERR_SHMSIZE } => true,
        IOException { HResult: NoSpace or WindowsDiskFull } => true,
        { InnerException: { } inner } => IsMeantBy(inner),
        _ => false,
    };
}
