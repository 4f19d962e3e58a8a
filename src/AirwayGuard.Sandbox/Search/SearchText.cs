using System.Text;

namespace AirwayGuard.Sandbox.Search;

/// <summary>Query strings and the escapes inside search values.</summary>
internal static class SearchText
{
    /// <summary>Name and value pairs of a query string or form, decoded, in order.</summary>
    public static List<KeyValuePair<string, string>> Pairs(string query)
    {
        var pairs = new List<KeyValuePair<string, string>>();
        foreach (var part in query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            var at = part.IndexOf('=', StringComparison.Ordinal);
            var (name, value) = at < 0 ? (part, "") : (part[..at], part[(at + 1)..]);
            pairs.Add(new(Decode(name), Decode(value)));
        }

        return pairs;
    }

    public static string Query(IEnumerable<KeyValuePair<string, string>> pairs) =>
        string.Join('&', pairs.Select(pair => $"{Uri.EscapeDataString(pair.Key)}={Uri.EscapeDataString(pair.Value)}"));

    /// <summary>Splits at a separator that no backslash precedes; escapes stay (R4 search.html#escaping).</summary>
    public static List<string> Split(string text, char separator)
    {
        var parts = new List<string>();
        var start = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\')
            {
                i++;
            }
            else if (text[i] == separator)
            {
                parts.Add(text[start..i]);
                start = i + 1;
            }
        }

        parts.Add(text[start..]);
        return parts;
    }

    /// <summary>Takes the backslash from <c>\,</c> <c>\|</c> <c>\$</c> and <c>\\</c>.</summary>
    public static string Unescape(string text)
    {
        if (!text.Contains('\\', StringComparison.Ordinal))
        {
            return text;
        }

        var plain = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\' && i + 1 < text.Length && text[i + 1] is ',' or '|' or '$' or '\\')
            {
                i++;
            }

            plain.Append(text[i]);
        }

        return plain.ToString();
    }

    private static string Decode(string text) => Uri.UnescapeDataString(text.Replace('+', ' '));
}
