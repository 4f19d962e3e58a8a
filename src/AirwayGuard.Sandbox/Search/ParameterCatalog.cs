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
    // R4 resource.html#search: the parameters of every type, which the SDK's list leaves out.
    private static readonly (string Name, SearchParamType Kind, string Expression)[] OfEveryType =
    [
        ("_tag", SearchParamType.Token, "Resource.meta.tag"),
        ("_security", SearchParamType.Token, "Resource.meta.security"),
        ("_profile", SearchParamType.Uri, "Resource.meta.profile"),
        ("_source", SearchParamType.Uri, "Resource.meta.source"),
    ];

    private static readonly ConcurrentDictionary<string, FrozenDictionary<string, SearchParameter>> ByType = new(StringComparer.Ordinal);

    public static FrozenDictionary<string, SearchParameter> For(string type) => ByType.GetOrAdd(type, Read);

    public static SearchParameter? Find(string type, string name) => For(type).GetValueOrDefault(name);

    private static FrozenDictionary<string, SearchParameter> Read(string type) =>
        ModelInfo.SearchParameters
            .Where(p => p.Resource == type && p.Name is not null && !string.IsNullOrEmpty(p.Expression))
            .Where(p => p.Type is not (SearchParamType.Composite or SearchParamType.Special))
            .DistinctBy(p => p.Name!, StringComparer.Ordinal)
            .Select(p => new SearchParameter(type, p.Name!, p.Type, ElementPath.ParseFor(type, p.Expression!),
                [.. (p.Target ?? []).Select(t => t.ToString()!)], p.Url))
            .Concat(OfEveryType.Select(p => new SearchParameter(type, p.Name, p.Kind, ElementPath.ParseFor(type, p.Expression), [],
                $"http://hl7.org/fhir/SearchParameter/Resource-{p.Name[1..]}")))
            .ToFrozenDictionary(p => p.Name, StringComparer.Ordinal);
}
