using AirwayGuard.Core.Diagnostics;
using Microsoft.Data.Sqlite;

namespace AirwayGuard.Storage;

/// <summary>The file of a ledger in its folder, and what is said where it cannot be opened.</summary>
public static class LedgerFile
{
    private const string Name = "ledger.db";

    public static string In(string folder) => Path.Combine(folder, Name);

    /// <summary>The file of a ledger that is there already.</summary>
    /// <exception cref="LedgerException">AG1606: there is none; AG1604: this account may not look.</exception>
    public static string Existing(string folder)
    {
        if (File.Exists(In(folder)))
        {
            return In(folder);
        }

        try
        {
            _ = Directory.EnumerateFileSystemEntries(folder).Any();
        }
        catch (UnauthorizedAccessException refused)
        {
            throw new LedgerException(new Problem(Codes.LedgerUnwritable, "--data", "This account may not look into the folder: give the command to the service's account, or to root."), refused);
        }
        catch (IOException)
        {
            // No such folder is no ledger there either.
            throw Missing();
        }

        throw Missing();

        static LedgerException Missing() => new(new Problem(Codes.LedgerMissing, "--data", $"There is no file {Name}."));
    }

    /// <summary>Makes the file where it is missing. SQLite gives its companions the rights of the file itself.</summary>
    /// <exception cref="LedgerException">AG1605: it is empty or gone, and a ledger was kept here; AG1604.</exception>
    internal static string MadeIn(string folder, bool wasKept)
    {
        try
        {
            // A new chain beside what is left of another would look like a sound one.
            if (Length(In(folder)) == 0 && (wasKept || Length(In(folder) + "-wal") > 0))
            {
                throw new LedgerException(OpeningTrouble.Emptied);
            }

            if (!File.Exists(In(folder)))
            {
                OwnRights.OpenOrMake(In(folder), FileShare.ReadWrite).Dispose();
            }

            return In(folder);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            throw new LedgerException(new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The file ledger.db cannot be made."), trouble);
        }
    }

    private static long Length(string file) => File.Exists(file) ? new FileInfo(file).Length : 0;

    /// <summary>Whether accounts other than the service's get into a ledger's folder: into it and the one it lies in. False where the system does not say.</summary>
    public static bool IsOpenToOthers(string folder) =>
        OwnRights.IsOpenToOthers(folder) && (Path.GetDirectoryName(Path.GetFullPath(folder)) is not { } outer || OwnRights.IsOpenToOthers(outer));

    /// <summary>What kept it from being opened, in our words; null where it is no trouble of the file's.</summary>
    internal static LedgerException? Refused(Exception trouble) =>
        trouble is SqliteException && TroubleOf(trouble) is { } problem ? new LedgerException(problem, trouble) : null;

    /// <summary>Whether a failure says that what the file holds is not to be trusted, also where another exception carries it.</summary>
    public static bool IsDamageMeantBy(Exception trouble) => TroubleOf(trouble)?.Code == Codes.LedgerDamaged;

    /// <summary>What a failure says of the file, also where another exception carries it; null where it is no trouble of the file's.</summary>
    public static Problem? TroubleOf(Exception trouble) => trouble switch
    {
        LedgerException refused => refused.Problem,
        SqliteException { SqliteErrorCode: var code } => OpeningTrouble.Of(code),
        { InnerException: { } inner } => TroubleOf(inner),
        _ => null,
    };
}
