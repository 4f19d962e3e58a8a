using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Host.Commands;

/// <summary>What <c>check</c> was asked.</summary>
internal sealed record CheckRequest(
    IReadOnlyList<string> Paths, string Rules, string Format, IReadOnlyList<string> Maps, string? Ledger, CheckSettings Settings);
