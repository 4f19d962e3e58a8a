using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Storage;

/// <summary>Keeps a second process out of a ledger's folder for as long as this one is open. The system lets go of it if the process dies.</summary>
internal sealed class FolderLock : IDisposable
{
    // EROFS, the system's error for a file system that takes no writes.
    private const int ReadOnlyFileSystem = 30;

    private readonly FileStream _file;

    private FolderLock(FileStream file) => _file = file;

    /// <exception cref="LedgerException">Somebody holds the folder, or it cannot be written to.</exception>
    public static FolderLock Take(string folder)
    {
        try
        {
            return new FolderLock(OwnRights.OpenOrMake(Path.Combine(folder, "ledger.lock"), FileShare.None));
        }
        catch (Exception trouble) when (trouble is UnauthorizedAccessException or IOException)
        {
            throw new LedgerException(RefusalOf(trouble), trouble);
        }
    }

    /// <summary>A ledger was kept in the folder; said by what stands in the file of the lock.</summary>
    public bool WasKept => _file.Length > 0;

    /// <summary>From now on a ledger is kept here.</summary>
    public void Mark()
    {
        if (!WasKept)
        {
            _file.Write("kept\n"u8);
            _file.Flush(flushToDisk: true);
        }
    }

    internal static Problem RefusalOf(Exception trouble) => trouble switch
    {
        UnauthorizedAccessException or IOException { HResult: ReadOnlyFileSystem } => new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The ledger's folder is not writable."),
        _ when DiskFull.IsMeantBy(trouble) => new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The ledger's folder has no room."),
        _ => new Problem(Codes.LedgerInUse, "AirwayGuard:DataDirectory", "Another process has the ledger open."),
    };

    public void Dispose() => _file.Dispose();
}
