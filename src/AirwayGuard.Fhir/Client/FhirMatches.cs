using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.Client;

/// <summary>What a search by identifier found.</summary>
/// <param name="Answer">The search's own answer; matches are only to be believed where it is done.</param>
public sealed record FhirMatches(FhirAnswer Answer, IReadOnlyList<Resource> Found)
{
    /// <summary>Says how many.</summary>
    public override string ToString() => $"FhirMatches({Found.Count}, {Answer})";
}
