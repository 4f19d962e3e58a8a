using System.Buffers;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>Names that FHIR gives resources and their types.</summary>
internal static class FhirNames
{
    private const int LongestId = 64, LongestType = 64;

    private static readonly SearchValues<char> OfIds = SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-.");

    public static bool IsId(ReadOnlySpan<char> text) => text.Length is > 0 and <= LongestId && !text.ContainsAnyExcept(OfIds);

    public static bool IsType(ReadOnlySpan<char> text) =>
        text.Length is > 1 and <= LongestType && char.IsAsciiLetterUpper(text[0]) && !text.ContainsAnyExceptInRange('A', 'z') && !text.ContainsAnyInRange('[', '`');

    /// <summary>The text where R4 could have it for a type.</summary>
    public static string? TypeOrNull(string? text) => IsType(text) ? text : null;

    /// <summary>The id, bare or behind its type; null where the text is neither.</summary>
    public static string? IdOf(string? text, string type)
    {
        var id = text is not null && text.StartsWith(type + "/", StringComparison.Ordinal) ? text[(type.Length + 1)..] : text;
        return IsId(id) ? id : null;
    }

    /// <summary><c>Type/id</c> of a relative or absolute reference, without version; null for any other. An id that FHIR would not allow is taken as well: it is one all the same.</summary>
    public static string? Literal(string? reference)
    {
        if (reference is null || reference.StartsWith("urn:", StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        var history = reference.IndexOf("/_history/", StringComparison.Ordinal);
        var address = history < 0 ? reference : reference[..history];
        var slash = address.LastIndexOf('/');
        if (slash <= 0)
        {
            return null;
        }

        var from = address.LastIndexOf('/', slash - 1) + 1;
        var id = address.AsSpan(slash + 1);
        return IsType(address.AsSpan(from, slash - from)) && !id.IsEmpty && !id.ContainsAny("?# ") ? address[from..] : null;
    }
}
