namespace AirwayGuard.Sandbox;

/// <summary>One version of one resource as kept; a deletion is a version without a body.</summary>
public sealed class StoredVersion
{
    /// <summary>The resource type, e.g. <c>Observation</c>.</summary>
    public required string Type { get; init; }

    /// <summary>The logical id.</summary>
    public required string Id { get; init; }

    /// <summary>1 for the first version, one more for each later one, deletions included.</summary>
    public required int VersionId { get; init; }

    /// <summary>When the server took the version, whole milliseconds, never earlier than any version taken before.</summary>
    public required DateTimeOffset LastUpdated { get; init; }

    /// <summary>The HTTP method that made the version: POST, PUT or DELETE.</summary>
    public required string Method { get; init; }

    /// <summary>The resource as UTF-8 JSON, its id and meta set by the server; empty for a deletion.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }

    /// <summary>Whether this version is a deletion.</summary>
    public bool IsDeletion => Method == "DELETE";

    /// <summary>Position in the order in which the server took all versions.</summary>
    internal long Sequence { get; init; }

    /// <summary>The version as a weak entity tag (R4 http.html#versionid, RFC 9110 §8.8.3).</summary>
    public string ETag => FormattableString.Invariant($"W/\"{VersionId}\"");

    /// <summary>Type and version only: the body is charted content.</summary>
    public override string ToString() => $"{Type} {ETag}";
}
