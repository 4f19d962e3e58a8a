using AirwayGuard.Core.Diagnostics;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Storage;

/// <summary>The file of a ledger in its folder, and what is said where it cannot be opened.</summary>
public static class LedgerFile
{
    private const string Name = "ledger.db";

    public static string In(string folder) => Path.Combine(folder, Name);

    /// <summary>The file of a ledger that is there already.</summary>
    /// <exception cref="LedgerException">AG1606: there is none.</exception>
    public static string Existing(string folder) => File.Exists(In(folder))
        ? In(folder)
        : throw new LedgerException(new Problem(Codes.LedgerMissing, "--data", $"There is no file {Name}."));

    /// <summary>What kept it from being opened, in our words; null where it is no trouble of the file's.</summary>
    internal static LedgerException? Refused(Exception trouble) =>
        trouble is SqliteException && TroubleOf(trouble) is { } problem ? new LedgerException(problem, trouble) : null;

    /// <summary>What a failure says of the file, also where another exception carries it; null where it is no trouble of the file's.</summary>
    public static Problem? TroubleOf(Exception trouble) => trouble switch
    {
        LedgerException refused => refused.Problem,
        SqliteException { SqliteErrorCode: var code } => OpeningTrouble.Of(code),
        { InnerException: { } inner } => TroubleOf(inner),
        _ => null,
    };
}
