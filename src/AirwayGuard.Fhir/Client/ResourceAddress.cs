namespace AirwayGuard.Fhir.Client;

/// <summary>Where a resource is on the server: <c>Type/id</c>, with a version where one was named.</summary>
public sealed record ResourceAddress(string Type, string Id, string? Version)
{
    /// <summary>Reads the last parts of a path: <c>Type/id</c> or <c>Type/id/_history/version</c>, whatever stands before them.</summary>
    public static ResourceAddress? FromPath(string path)
    {
        var parts = path.Split('/', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length >= 4 && parts[^2] == "_history")
        {
            return Of(parts[^4], parts[^3], parts[^1]);
        }

        return parts.Length >= 2 ? Of(parts[^2], parts[^1], null) : null;
    }

    /// <summary>The relative reference, with the version where it is known.</summary>
    public override string ToString() => Version is null ? $"{Type}/{Id}" : $"{Type}/{Id}/_history/{Version}";

    private static ResourceAddress? Of(string type, string id, string? version) =>
        type.Length > 1 && char.IsAsciiLetterUpper(type[0]) && type.All(char.IsAsciiLetter) && IsId(id) && (version is null || IsId(version))
            ? new ResourceAddress(type, id, version)
            : null;

    // R4 allows 64 characters; some servers give longer ids.
    private static bool IsId(string id) =>
        id.Length is > 0 and <= 256 && id is not ("." or "..") && id.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '.' or '_');
}
