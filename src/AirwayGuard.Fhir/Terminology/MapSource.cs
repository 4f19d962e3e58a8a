namespace AirwayGuard.Fhir.Terminology;

/// <summary>A ConceptMap or NamingSystem as FHIR R4 JSON.</summary>
/// <param name="Name">What to call it in a fault: a file name.</param>
/// <param name="Json">Its UTF-8 bytes.</param>
public sealed record MapSource(string Name, ReadOnlyMemory<byte> Json);
