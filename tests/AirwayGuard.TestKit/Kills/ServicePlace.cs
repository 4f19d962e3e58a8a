using System.Globalization;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Where a service runs and for which server, from start to start.</summary>
/// <param name="Folder">Its data folder.</param>
/// <param name="IsLive">Whether it writes to the server.</param>
internal sealed record ServicePlace(string Service, Uri Server, string Folder, int Port, bool IsLive)
{
    public Uri Address => new(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{Port}/"));

    /// <summary>Arguments that come after the others and go before them.</summary>
    public IReadOnlyList<string> More { get; init; } = [];

    public string LedgerFolder => Path.Combine(Folder, "ledger");

    /// <summary>Often, and few at a time, so that there is more to be caught in; a claim on a message runs out soon after the process that held it.</summary>
    public IReadOnlyList<string> Arguments =>
    [
        "--urls", Address.AbsoluteUri.TrimEnd('/'), $"--AirwayGuard:Fhir:BaseUrl={Server}", $"--AirwayGuard:DataDirectory={Folder}", $"--AirwayGuard:Mode={(IsLive ? "live" : "silent")}",
        "--AirwayGuard:Intake:QuickSeconds=1", "--AirwayGuard:Intake:WideSeconds=10", "--AirwayGuard:Intake:NoticeGapSeconds=0", "--AirwayGuard:Intake:PageSize=50",
        "--AirwayGuard:WriteBack:LeaseSeconds=5", .. More,
    ];
}
