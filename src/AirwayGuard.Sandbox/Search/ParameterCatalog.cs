using System.Collections.Concurrent;
using System.Collections.Frozen;
using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Search;

/// <summary>
/// The search parameters that R4 itself defines (searchparameter-registry.html), as the SDK carries them. Composite and
/// special ones (code-value-quantity, near) and those without an expression (_text, _content) are left out.
/// </summary>
internal static class ParameterCatalog
{
    private static readonly ConcurrentDictionary<string, FrozenDictionary<string, SearchParameter>> ByType = new(StringComparer.Ordinal);

    public static FrozenDictionary<string, SearchParameter> For(string type) => ByType.GetOrAdd(type, Read);

    public static SearchParameter? Find(string type, string name) => For(type).GetValueOrDefault(name);

    private static FrozenDictionary<string, SearchParameter> Read(string type) =>
        ModelInfo.SearchParameters
            .Where(p => p.Resource == type || p.Resource is "Resource" or "DomainResource")
            .Where(p => p.Type is not (SearchParamType.Composite or SearchParamType.Special) && p.Name is not ("_id" or "_lastUpdated") && !string.IsNullOrEmpty(p.Expression))
            .Where(p => p.Name is not null)
            .DistinctBy(p => p.Name!, StringComparer.Ordinal)
            .Select(p => new SearchParameter(type, p.Name!, p.Type, ElementPath.ParseFor(type, p.Expression!),
                [.. (p.Target ?? []).Select(t => t.ToString()!)], p.Url))
            .ToFrozenDictionary(p => p.Name, StringComparer.Ordinal);
}
