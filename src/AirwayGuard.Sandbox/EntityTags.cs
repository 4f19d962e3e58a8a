namespace AirwayGuard.Sandbox;

/// <summary>Lists of entity tags (RFC 9110 §8.8.3), compared weakly.</summary>
internal static class EntityTags
{
    public static bool AnyMatches(string list, string tag) =>
        list.Split(',', StringSplitOptions.TrimEntries).Any(item => item == "*" || Bare(item) == Bare(tag));

    private static string Bare(string tag) => (tag.StartsWith("W/", StringComparison.Ordinal) ? tag[2..] : tag).Trim('"');
}
