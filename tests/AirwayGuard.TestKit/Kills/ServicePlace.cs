using System.Globalization;

namespace AirwayGuard.TestKit.Kills;

/// <summary>Where a service runs and for which server, from start to start.</summary>
/// <param name="Server">Null for the demo, where the service's own sandbox plays it.</param>
/// <param name="Folder">Its data folder.</param>
/// <param name="IsLive">Whether it writes to the server.</param>
internal sealed record ServicePlace(string Service, Uri? Server, string Folder, int Port, bool IsLive)
{
    public Uri Address => new(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{Port}/"));

    /// <summary>Settings in place of those of <see cref="Arguments"/> of the same name, which a service refuses to be given twice.</summary>
    public IReadOnlyList<string> More { get; init; } = [];

    private static IReadOnlyList<string> Pace { get; } =
    [
        "--AirwayGuard:Intake:QuickSeconds=1", "--AirwayGuard:Intake:WideSeconds=10", "--AirwayGuard:Intake:NoticeGapSeconds=0", "--AirwayGuard:Intake:PageSize=50",
    ];

    public string LedgerFolder => Path.Combine(Folder, "ledger");

    /// <summary>Often, and few at a time, so that there is more to be caught in; a claim on a message runs out soon after the process that held it.</summary>
    public IReadOnlyList<string> Arguments =>
    [
        "--urls", Address.AbsoluteUri.TrimEnd('/'), $"--AirwayGuard:DataDirectory={Folder}", $"--AirwayGuard:Mode={(IsLive ? "live" : "silent")}",
        .. Server is null ? [] : (string[])[$"--AirwayGuard:Fhir:BaseUrl={Server}"],
        "--AirwayGuard:WriteBack:LeaseSeconds=5", .. Pace.Where(one => !More.Any(other => NameOf(other) == NameOf(one))), .. More,
    ];

    private static string NameOf(string setting) => setting.Split('=')[0];
}
