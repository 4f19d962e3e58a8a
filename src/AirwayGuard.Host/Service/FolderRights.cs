using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Storage;

namespace AirwayGuard.Host.Service;

/// <summary>Tells at the start where other accounts of the machine can read what the service keeps. What it makes itself they cannot.</summary>
internal sealed partial class FolderRights(ServicePlan plan, ILogger<FolderRights> logger)
{
    public void Tell()
    {
        // In the demo all patients are invented.
        if (!plan.IsDemo && LedgerFile.IsOpenToOthers(Path.Combine(plan.DataFolder, "ledger")))
        {
            LogOpen(logger, Codes.DataFolderOpen.Id, Codes.DataFolderOpen.Title, Codes.DataFolderOpen.Advice);
        }
    }

    [LoggerMessage(1006, LogLevel.Warning, "{Code}: {Title}. {Advice}")]
    private static partial void LogOpen(ILogger logger, string code, string title, string advice);
}
