using AirwayGuard.Core.Ports;

namespace AirwayGuard.Host.Service;

/// <summary>What is set aside, counted by code.</summary>
internal static class ParkedCounts
{
    /// <returns>By code.</returns>
    public static async Task<IReadOnlyList<(string Code, int Count)>> ReadAsync(ILedger ledger, CancellationToken stop) =>
        [.. (await ledger.ParkedAsync(stop)).CountBy(item => item.Code).OrderBy(one => one.Key, StringComparer.Ordinal).Select(one => (one.Key, one.Value))];
}
