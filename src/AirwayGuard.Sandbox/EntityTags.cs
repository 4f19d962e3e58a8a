namespace AirwayGuard.Sandbox;

/// <summary>Lists of entity tags (RFC 9110 §8.8.3), compared weakly.</summary>
internal static class EntityTags
{
    public static bool AnyMatches(string list, string tag) =>
        list.Split(',', StringSplitOptions.TrimEntries).Any(item => item == "*" || Bare(item) == Bare(tag));

    /// <summary>Whether the text is <c>*</c> or a list of quoted tags, weak or not (RFC 9110 §13.1.1).</summary>
    public static bool AreTags(string list) => list.Trim() == "*" || list.Split(',', StringSplitOptions.TrimEntries).All(IsTag);

    private static bool IsTag(string tag)
    {
        var opaque = tag.StartsWith("W/", StringComparison.Ordinal) ? tag[2..] : tag;
        return opaque.Length >= 2 && opaque[0] == '"' && opaque[^1] == '"' && !opaque[1..^1].Contains('"', StringComparison.Ordinal);
    }

    private static string Bare(string tag) => (tag.StartsWith("W/", StringComparison.Ordinal) ? tag[2..] : tag).Trim('"');
}
