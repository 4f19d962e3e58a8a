using System.Collections.Immutable;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>A service as a discovery lists it (CDS Hooks 2.0, "Discovery").</summary>
/// <param name="Id">The part of its address behind <c>/cds-services/</c>.</param>
/// <param name="Prefetch">What the client is asked to look up, by key.</param>
/// <param name="UsageRequirements">What a client must have agreed on besides; null for nothing.</param>
public sealed record HookService(
    string Id, Hook Hook, string Title, string Description, ImmutableArray<(string Key, string Query)> Prefetch, string? UsageRequirements);
