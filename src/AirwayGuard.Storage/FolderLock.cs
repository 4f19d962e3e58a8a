using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Storage;

/// <summary>Keeps a second process out of a ledger's folder for as long as this one is open. The system lets go of it if the process dies.</summary>
internal sealed class FolderLock : IDisposable
{
    private readonly FileStream _file;

    private FolderLock(FileStream file) => _file = file;

    /// <exception cref="LedgerException">Somebody holds the folder, or it cannot be written to.</exception>
    public static FolderLock Take(string folder)
    {
        try
        {
            return new FolderLock(new FileStream(Path.Combine(folder, "ledger.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (UnauthorizedAccessException trouble)
        {
            throw new LedgerException(new Problem(Codes.LedgerUnwritable, "AirwayGuard:DataDirectory", "The ledger's folder is not writable."), trouble);
        }
        catch (IOException trouble)
        {
            throw new LedgerException(new Problem(Codes.LedgerInUse, "AirwayGuard:DataDirectory", "Another process has the ledger open."), trouble);
        }
    }

    public void Dispose() => _file.Dispose();
}
