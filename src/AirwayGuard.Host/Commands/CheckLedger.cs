using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;

namespace AirwayGuard.Host.Commands;

/// <summary>Opens the ledger of <c>check --ledger</c>: a new one, so that only what is given is judged.</summary>
internal static class CheckLedger
{
    public static async Task<ILedger?> OpenAsync(string folder, TimeProvider clock, TextWriter errors)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
        {
            await errors.WriteLineAsync(ProblemLine.Of(new Problem(Codes.LedgerNotEmpty, "check --ledger", "the folder holds files already")));
            return null;
        }

        try
        {
            return await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), clock);
        }
        catch (LedgerException refused)
        {
            await errors.WriteLineAsync(ProblemLine.Of(refused.Problem with { Where = "check --ledger" }));
            return null;
        }
    }
}
