namespace AirwayGuard.Sandbox;

/// <summary>Conditions on the version a write meets (RFC 9110 §13.1); null when the client sets none.</summary>
/// <param name="IfMatch">Entity tags of which the current version must have one, e.g. <c>W/"3"</c>.</param>
/// <param name="IfNoneMatch">Only <c>*</c> is used: nothing may be there yet.</param>
public sealed record Preconditions(string? IfMatch = null, string? IfNoneMatch = null)
{
    /// <summary>No conditions.</summary>
    public static Preconditions None { get; } = new();

    /// <summary>Refuses with 412 when <paramref name="current"/> is not what the client expects.</summary>
    internal void Check(StoredVersion? current)
    {
        var there = current is { IsDeletion: false };
        if (IfNoneMatch == "*" && there)
        {
            throw new SandboxRefusalException(412, "conflict", "The resource exists already.");
        }

        // R4 http.html#concurrency: 412 when the version id is not the current one. R4's entity tags are weak, and it
        // compares them weakly although RFC 9110 §13.1.1 asks for the strong comparison.
        if (IfMatch is not null && (!there || !EntityTags.AnyMatches(IfMatch, current!.ETag)))
        {
            throw new SandboxRefusalException(412, "conflict", "The resource's version is not the expected one.");
        }
    }
}
