using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>The outcome of loading maps.</summary>
/// <param name="Map">Null where a fault forbids its use.</param>
/// <param name="Faults">Everything wrong, not only the first.</param>
public sealed record LoadedCodeMap(CodeMap? Map, IReadOnlyList<Problem> Faults);
