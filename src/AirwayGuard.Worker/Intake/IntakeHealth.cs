using System.Collections.Concurrent;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Worker.Intake;

/// <summary>
/// What is wrong with the intake now, so that it is told once and seen for as long as it lasts. Safe for concurrent use; nothing is
/// kept over a restart.
/// </summary>
public sealed class IntakeHealth
{
    private readonly ConcurrentDictionary<(string Where, string Code), DiagnosticCode> _standing = new();

    /// <summary>What stands, by place, then code.</summary>
    public IReadOnlyList<(string Where, string Code)> Standing =>
        [.. _standing.Keys.OrderBy(one => one.Where, StringComparer.Ordinal).ThenBy(one => one.Code, StringComparer.Ordinal)];

    /// <summary>The same with each code's words.</summary>
    public IReadOnlyList<(string Where, DiagnosticCode Code)> Troubles =>
        [.. _standing.Select(one => (one.Key.Where, Code: one.Value)).OrderBy(one => one.Where, StringComparer.Ordinal).ThenBy(one => one.Code.Id, StringComparer.Ordinal)];

    /// <returns>True where this is news.</returns>
    public bool Report(string where, DiagnosticCode code) => _standing.TryAdd((where, code.Id), code);

    /// <returns>True where it stood.</returns>
    public bool Clear(string where, DiagnosticCode code) => _standing.TryRemove((where, code.Id), out _);

    /// <summary>Leaves of a place only what stands still.</summary>
    public void ClearBut(string where, IReadOnlyCollection<string> codes)
    {
        foreach (var one in _standing.Keys)
        {
            if (one.Where == where && !codes.Contains(one.Code, StringComparer.Ordinal))
            {
                _standing.TryRemove(one, out _);
            }
        }
    }
}
