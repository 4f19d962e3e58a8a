using System.Collections.Frozen;
using Hl7.Fhir.Model;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>R4's resource types, those without an endpoint of their own left out (R4 parameters.html).</summary>
internal static class ResourceTypes
{
    private static readonly FrozenSet<string> Known = ModelInfo.SupportedResources.Where(t => t != "Parameters").ToFrozenSet(StringComparer.Ordinal);

    public static IEnumerable<string> All => Known.Order(StringComparer.Ordinal);

    public static bool IsKnown(string type) => Known.Contains(type);

    /// <summary>Whether the text is an id of R4: 1 to 64 of A-Z a-z 0-9 - and . (datatypes.html#id).</summary>
    public static bool IsId(string text) =>
        text.Length is > 0 and <= 64 && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.');
}
