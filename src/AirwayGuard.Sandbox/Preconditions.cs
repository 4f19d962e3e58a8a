namespace AirwayGuard.Sandbox;

/// <summary>Conditions on the version a request meets (RFC 9110 §13.1); null when the client sets none.</summary>
/// <param name="IfMatch">Entity tags of which the current version must have one, e.g. <c>W/"3"</c>.</param>
/// <param name="IfNoneMatch">Entity tags of which the current version of a write must have none; <c>*</c>: nothing may be there yet.</param>
/// <param name="IfUnmodifiedSince">An HTTP date after which the current version must not have come; counts only without <paramref name="IfMatch"/>.</param>
public sealed record Preconditions(string? IfMatch = null, string? IfNoneMatch = null, string? IfUnmodifiedSince = null)
{
    /// <summary>No conditions.</summary>
    public static Preconditions None { get; } = new();

    /// <summary>Refuses a write with 412 when <paramref name="current"/> is not what the client expects; in the order of RFC 9110 §13.2.2.</summary>
    internal void Check(StoredVersion? current)
    {
        CheckForm(IfNoneMatch, "If-None-Match");
        CheckRead(current);
        if (IfNoneMatch is not null && current is { IsDeletion: false } && EntityTags.AnyMatches(IfNoneMatch, current.ETag))
        {
            throw new SandboxRefusalException(SandboxFault.ConditionNotMet, 412, "conflict", IfNoneMatch == "*" ? "The resource exists already." : "The resource still has this version.");
        }
    }

    /// <summary>The same for a read, where If-None-Match is no ground for a refusal (§13.1.2).</summary>
    internal void CheckRead(StoredVersion? current)
    {
        CheckForm(IfMatch, "If-Match");
        var there = current is { IsDeletion: false };

        // R4 http.html#concurrency: 412 when the version id is not the current one. R4's entity tags are weak, and it
        // compares them weakly although RFC 9110 §13.1.1 asks for the strong comparison.
        if (IfMatch is not null && (!there || !EntityTags.AnyMatches(IfMatch, current!.ETag)))
        {
            throw new SandboxRefusalException(SandboxFault.ConditionNotMet, 412, "conflict", "The resource's version is not the expected one.");
        }

        if (IfMatch is null && there && HttpDate.TryRead(IfUnmodifiedSince, out var since) && current!.LastUpdated.ToUnixTimeSeconds() > since.ToUnixTimeSeconds())
        {
            throw new SandboxRefusalException(SandboxFault.ConditionNotMet, 412, "conflict", "The resource was changed since the time given.");
        }
    }

    // A condition that cannot be read must not count as one that holds, nor as a version that is outdated.
    private static void CheckForm(string? tags, string header)
    {
        if (tags is not null && !EntityTags.AreTags(tags))
        {
            throw new SandboxRefusalException(SandboxFault.ConditionUnreadable, 400, "value", $"{header} holds something else than entity tags.");
        }
    }
}
