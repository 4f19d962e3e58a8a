using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Reading;

/// <summary>One resource or deletion of a file or stream, or why there is none.</summary>
/// <param name="Where"><c>file</c>, <c>file:line</c> of NDJSON, <c>file#entry n</c> of a Bundle (from 1).</param>
/// <param name="Arrival">Null where a problem stands.</param>
/// <param name="Problem">Why this part could not be read at all.</param>
public sealed record DocumentItem(string Where, Arrival? Arrival, Problem? Problem)
{
    /// <summary>The fullUrl of a Bundle's entry; null where it has none.</summary>
    public string? Address { get; init; }
}
