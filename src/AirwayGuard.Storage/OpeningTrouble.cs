using AirwayGuard.Core.Diagnostics;
using SQLitePCL;

namespace AirwayGuard.Storage;

/// <summary>What a refusal of SQLite on opening means to a person.</summary>
internal static class OpeningTrouble
{
    public static readonly Problem Damaged = new(Codes.LedgerDamaged, "AirwayGuard:DataDirectory", "The file ledger.db is not a sound database.");

    public static readonly Problem Emptied = new(Codes.LedgerDamaged, "AirwayGuard:DataDirectory", "The file ledger.db is empty or gone, though a ledger was kept in this folder.");

    public static readonly Problem Gone = new(Codes.LedgerMoved, "AirwayGuard:DataDirectory", "The file ledger.db is not at its place any more.");

    public static readonly Problem Replaced = new(Codes.LedgerMoved, "AirwayGuard:DataDirectory", "Another file has taken the place of ledger.db.");

    public static readonly Problem NotWritable = new(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The file ledger.db may not be written to by this account.");

    /// <returns>Null where it is no trouble of the file or folder.</returns>
    public static Problem? Of(int sqliteCode) => sqliteCode switch
    {
        raw.SQLITE_CORRUPT or raw.SQLITE_NOTADB => Damaged,
        raw.SQLITE_READONLY => NotWritable,
        raw.SQLITE_CANTOPEN or raw.SQLITE_PERM => new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The file ledger.db cannot be opened as needed."),
        _ => null,
    };
}
