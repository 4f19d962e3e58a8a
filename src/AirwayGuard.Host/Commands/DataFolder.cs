using System.CommandLine;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;

namespace AirwayGuard.Host.Commands;

/// <summary>Where the service keeps its ledger: as <c>--data</c> says, else as the service's own settings say.</summary>
internal static class DataFolder
{
    /// <summary>Neither an option nor the settings name a folder.</summary>
    public static readonly Problem NotNamed = new(Codes.LedgerMissing, "--data", "The option is missing, and the service's settings are not valid or name no data folder.");

    public static Option<string?> Option() => new("--data") { Description = "The service's data folder; default as the service's settings say (AirwayGuard:DataDirectory)." };

    /// <returns>The ledger's folder, null where nothing names one; and what the settings come to, null where they are not valid.</returns>
    public static (string? Folder, ServicePlan? Plan) Of(string? data)
    {
        var settings = new ConfigurationBuilder()
            .SetBasePath(AppContext.BaseDirectory)
            .AddJsonFile("appsettings.json", optional: true)
            .AddEnvironmentVariables();
        if (data is not null)
        {
            settings.AddInMemoryCollection([new("AirwayGuard:DataDirectory", data)]);
        }

        var (plan, _) = ServicePlan.Of(settings.Build());
        var folder = data ?? plan?.DataFolder;
        return (folder is null ? null : Path.Combine(folder, "ledger"), plan);
    }
}
