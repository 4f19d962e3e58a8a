using AirwayGuard.Core.Charting;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>A row code that some map gives a meaning, for searches and reports.</summary>
public sealed record MappedRowCode(string System, string Code, Concept Concept);
