using System.Collections.Frozen;
using System.Text.RegularExpressions;
using Hl7.Fhir.Model;

namespace AirwayGuard.Host.Commands;

/// <summary>
/// What of a resource's name may be printed. What a malformed resource has in these members is its source's own text, and may be
/// anything, a patient's name among it.
/// </summary>
internal static partial class KnownNames
{
    private static readonly FrozenSet<string> Types = ModelInfo.SupportedResources.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>The name of an R4 type, else words that say that it is none.</summary>
    public static string Type(string? type) => type is null ? "no resource" : Types.Contains(type) ? type : "not an R4 type";

    /// <summary>An id or version as R4 has them, else words that say that it is none.</summary>
    public static string Id(string id) => Form().IsMatch(id) ? id : "(not an R4 id)";

    /// <summary><c>Type/id</c>, each as above.</summary>
    public static string Reference(string name) => name.Split('/', 2) is [var type, var id] ? $"{Type(type)}/{Id(id)}" : Type(name);

    [GeneratedRegex(@"\A[A-Za-z0-9\-.]{1,64}\z", RegexOptions.NonBacktracking)]
    private static partial Regex Form();
}
