namespace AirwayGuard.Fhir.Client;

/// <summary>Writes values of search parameters, in which four characters have a meaning of their own (R4 search.html#escaping).</summary>
internal static class SearchValue
{
    /// <summary>Puts a backslash before <c>\</c>, <c>,</c>, <c>|</c> and <c>$</c>. Percent-escaping comes after, and is the caller's.</summary>
    public static string Escape(string text) => text.AsSpan().IndexOfAny("\\,|$") < 0
        ? text
        : text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace(",", "\\,", StringComparison.Ordinal)
            .Replace("|", "\\|", StringComparison.Ordinal).Replace("$", "\\$", StringComparison.Ordinal);

    /// <summary><c>system|value</c>, the bar between them being the only one that parts them.</summary>
    public static string Token(string system, string value) => $"{Escape(system)}|{Escape(value)}";
}
