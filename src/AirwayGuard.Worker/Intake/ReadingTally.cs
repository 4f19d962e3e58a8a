using System.Collections.Concurrent;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// How many resources, since the start, were read with a problem, by its code, and how many rows no map knows. Counts only: which they
/// were is nobody's business here. Safe for concurrent use.
/// </summary>
public sealed class ReadingTally
{
    // What else a source calls a type is its own text, and may be anything.
    private static readonly HashSet<string> Types = new(StringComparer.Ordinal)
    {
        "Bundle", "Condition", "DetectedIssue", "Device", "DeviceMetric", "DeviceRequest", "DeviceUseStatement", "Encounter", "Flag", "Location", "Observation", "Patient",
        "Procedure", "ServiceRequest",
    };

    private readonly ConcurrentDictionary<string, long> _problems = new(StringComparer.Ordinal);
    private long _notMapped;

    /// <summary>By code.</summary>
    public IReadOnlyList<(string Code, long Count)> Problems =>
        [.. _problems.Select(one => (one.Key, one.Value)).OrderBy(one => one.Key, StringComparer.Ordinal)];

    public long NotMapped => Interlocked.Read(ref _notMapped);

    /// <summary>Counts one resource for each code it was read with.</summary>
    /// <param name="met">Of one batch: the type of a resource and a code, as often as there are such resources.</param>
    /// <returns>The batch by type and code, with counts.</returns>
    public IReadOnlyList<(string Type, DiagnosticCode Code, int Count)> Add(IEnumerable<(string Type, DiagnosticCode Code)> met)
    {
        var batch = met.GroupBy(one => one).Select(same => (same.Key.Type, same.Key.Code, Count: same.Count()))
            .OrderBy(one => one.Code.Id, StringComparer.Ordinal).ThenBy(one => one.Type, StringComparer.Ordinal).ToList();
        foreach (var (_, code, count) in batch)
        {
            _problems.AddOrUpdate(code.Id, count, (_, before) => before + count);
        }

        return batch;
    }

    /// <summary>A resource's type where it is one that is read, for the log; else only that it is a resource.</summary>
    public static string TypeOf(string? type) => type is not null && Types.Contains(type) ? type : "resource";

    public void AddNotMapped(int rows) => Interlocked.Add(ref _notMapped, rows);
}
