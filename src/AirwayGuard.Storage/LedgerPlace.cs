using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage.Auditing;
using AirwayGuard.Storage.Sql;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace AirwayGuard.Storage;

/// <summary>
/// Whether the file that was opened is still the one at its place. A file that is taken away or replaced goes on taking what is written, and
/// all of it is lost with the process. Told by the audit trail: what stands at the place must hold the newest entry of what was opened. Safe
/// for concurrent use.
/// </summary>
internal sealed class LedgerPlace(string file) : IDisposable
{
    private readonly Lock _gate = new();
    private readonly Database _opened = Database.OpenReader(file);

    /// <summary>Null where it is the same, and where that cannot be told now.</summary>
    public Problem? Trouble()
    {
        lock (_gate)
        {
            var head = AuditRows.Head(_opened);
            if (!File.Exists(file))
            {
                return OpeningTrouble.Gone;
            }

            try
            {
                using var there = Database.OpenReader(file);
                using var entry = there.Prepared("SELECT hash FROM audit WHERE number = ?1");
                return head.Number == 0 || (entry.Bind(1, head.Number).Step() && entry.Text(0) == head.Hash) ? null : OpeningTrouble.Replaced;
            }
            catch (SqliteException trouble)
            {
                // SQLITE_ERROR: it has no such table. What else there is may pass, as a disk without room.
                return trouble.SqliteErrorCode is raw.SQLITE_ERROR or raw.SQLITE_NOTADB or raw.SQLITE_CORRUPT ? OpeningTrouble.Replaced
                    : File.Exists(file) ? null
                    : OpeningTrouble.Gone;
            }
        }
    }

    public void Dispose() => _opened.Dispose();
}
