namespace AirwayGuard.TestKit.Simulation;

/// <summary>How a simulated service is set up.</summary>
/// <param name="IsLive">Whether anything leaves it.</param>
/// <param name="IsShared">Another process has the same ledger open.</param>
/// <param name="PageSize">Resources asked for a page.</param>
internal sealed record LifeSettings(bool IsLive, bool IsShared, int PageSize, Sabotage Sabotage);
