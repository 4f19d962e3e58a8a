using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Search;

/// <summary>One of R4's search parameters for one resource type.</summary>
internal sealed record SearchParameter(string Type, string Name, SearchParamType Kind, IReadOnlyList<ElementPath> Paths, IReadOnlyList<string> Targets, string? Definition)
{
    /// <summary>What the index rows of this parameter are kept under.</summary>
    public string Key { get; } = $"{Type}.{Name}";

    /// <summary>Under which the identifiers of logical references are kept, for the modifier <c>:identifier</c>.</summary>
    public string IdentifierKey => $"{Key}:identifier";
}
