using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>A resource as it stands on the server.</summary>
/// <param name="Version">Null where the server gives none.</param>
internal sealed record Standing(Resource Resource, string Id, string? Version);
