namespace AirwayGuard.Fhir.Client;

/// <summary>Versions as entity tags. They are opaque: numbers on some servers, UUIDs on others; never compared by order.</summary>
public static class EntityTag
{
    /// <summary>The version in <c>W/"n"</c>, <c>"n"</c> or a bare <c>n</c>; null for none or <c>*</c>.</summary>
    public static string? Version(string? tag)
    {
        var text = tag?.Trim() ?? "";
        text = text.StartsWith("W/", StringComparison.OrdinalIgnoreCase) ? text[2..] : text;
        text = text.Trim('"');
        return text is "" or "*" || text.Contains('"', StringComparison.Ordinal) ? null : text;
    }

    /// <summary>The form of <c>If-Match</c> (R4 http: weak tags).</summary>
    public static string ForMatch(string version) => $"W/\"{version}\"";
}
