using AirwayGuard.Conventions.Tests.Sources;

namespace AirwayGuard.Conventions.Tests.Documents;

/// <summary>The configuration keys the service reads, as its sources name them, and those that documents name.</summary>
internal static class Settings
{
    private const string Prefix = "AirwayGuard";

    /// <summary>Whole keys and sections: every literal that is one, and for a type of options its section with each property.</summary>
    public static IReadOnlySet<string> Known { get; } =
        SourceFile.In("src").SelectMany(KeysOf).ToHashSet(StringComparer.OrdinalIgnoreCase);

    private static readonly HashSet<string> Properties =
        SourceFile.In("src").SelectMany(PropertiesOf).ToHashSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>Keys in a text, in either spelling: <c>AirwayGuard:Part:Name</c> or, for the environment, with double underscores.</summary>
    public static IEnumerable<string> In(string text)
    {
        foreach (var separator in (string[])[":", "__"])
        {
            var start = Prefix + separator;
            for (var at = text.IndexOf(start, StringComparison.Ordinal); at >= 0; at = text.IndexOf(start, at + 1, StringComparison.Ordinal))
            {
                var end = at + start.Length;
                while (end < text.Length && (char.IsAsciiLetterOrDigit(text[end]) || string.CompareOrdinal(text, end, separator, 0, separator.Length) == 0 || (separator == "__" && text[end] == '_')))
                {
                    end++;
                }

                var key = text[at..end].Replace("__", ":", StringComparison.Ordinal).TrimEnd(':');
                if (key != Prefix)
                {
                    yield return key;
                }
            }
        }
    }

    /// <summary>True for a known key, and below one for the index of a list or the properties of a nested type.</summary>
    public static bool Exists(string key)
    {
        for (var at = key.Length; at > Prefix.Length; at = key.LastIndexOf(':', at - 1))
        {
            if (Known.Contains(key[..at]))
            {
                var rest = key[at..].Split(':', StringSplitOptions.RemoveEmptyEntries);
                return rest.Length == 0 || (at > Prefix.Length && IsLeaf(key[..at]) && rest.All(part => Properties.Contains(part) || part.All(char.IsAsciiDigit)));
            }
        }

        return false;
    }

    /// <summary>A key no other key stands below: what follows it is inside its value.</summary>
    private static bool IsLeaf(string key) => !Known.Any(other => other.StartsWith(key + ":", StringComparison.OrdinalIgnoreCase));

    private static IEnumerable<string> KeysOf(SourceFile source)
    {
        foreach (var literal in LiteralsOf(source.Text))
        {
            yield return literal;
            if (source.Text.Contains($"Section = \"{literal}\"", StringComparison.Ordinal))
            {
                foreach (var property in PropertiesOf(source))
                {
                    yield return $"{literal}:{property}";
                }
            }
        }
    }

    private static IEnumerable<string> LiteralsOf(string text) =>
        text.Split('"').Where((part, index) => index % 2 == 1 && (part == Prefix || part.StartsWith(Prefix + ":", StringComparison.Ordinal)) && part.All(sign => char.IsAsciiLetterOrDigit(sign) || sign == ':'));

    private static IEnumerable<string> PropertiesOf(SourceFile source) =>
        source.Code.Split('\n').Select(line => line.Trim())
            .Where(line => line.StartsWith("public ", StringComparison.Ordinal) && line.Contains("{ get;", StringComparison.Ordinal))
            .Select(line => line[..line.IndexOf("{ get;", StringComparison.Ordinal)].TrimEnd().Split(' ')[^1]);
}
