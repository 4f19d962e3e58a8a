namespace AirwayGuard.TestKit.Kills;

/// <summary>What to do with the built service.</summary>
/// <param name="Service">The program, <c>airwayguard.dll</c>.</param>
/// <param name="Kills">How often it is ended, at least 1.</param>
/// <param name="Seed">Of the charting and of the moments.</param>
public sealed record KillSettings(string Service, int Kills, int Seed);
