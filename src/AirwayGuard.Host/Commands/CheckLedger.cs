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
            await errors.WriteLineAsync($"{Core.Diagnostics.Codes.LedgerNotEmpty.Id}  --ledger: {Core.Diagnostics.Codes.LedgerNotEmpty.Title}. {Core.Diagnostics.Codes.LedgerNotEmpty.Advice}");
            return null;
        }

        try
        {
            return await SqliteLedger.OpenAsync(folder, new SqliteLedgerOptions(), clock);
        }
        catch (LedgerException refused)
        {
            await errors.WriteLineAsync($"{refused.Problem.Code.Id}  {refused.Problem.Where}: {refused.Problem.Why.TrimEnd('.')}. {refused.Problem.Code.Advice}");
            return null;
        }
    }
}
