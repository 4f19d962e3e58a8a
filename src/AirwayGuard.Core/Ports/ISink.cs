namespace AirwayGuard.Core.Ports;

/// <summary>Takes one outgoing message where it belongs. Idempotent: the same message twice leaves one resource.</summary>
public interface ISink
{
    /// <summary>The kinds of message it takes.</summary>
    bool Takes(string kind);

    /// <param name="last">What the server said when a message of this key was last confirmed; null for the first.</param>
    /// <param name="until">When the claim runs out: from then on another may have sent something newer, and nothing is written any more.</param>
    ValueTask<SinkAnswer> SendAsync(Outgoing outgoing, ServerVersion? last, DateTimeOffset until, CancellationToken stop);
}

/// <summary>The resource a key has on the server, and the version we left there; empty where that is not known.</summary>
public sealed record ServerVersion(string Id, string Version)
{
    /// <summary>We left a version there; otherwise the resource was only met, and a copy of it may stand beside.</summary>
    public bool IsConfirmed => Version.Length > 0;
}

/// <summary>What became of one sending.</summary>
/// <param name="Server">Id and version on the server; null where nothing is there.</param>
/// <param name="ChangedByPerson">Somebody else has changed the resource since; it was left as that person left it.</param>
/// <param name="ClosedByPerson">A person has ended it: a Flag set inactive, an issue given a mitigation.</param>
/// <param name="Code">Problem code for what is unknown or parked; null otherwise.</param>
/// <param name="RetryAfter">How long the server asked to wait; null if it did not.</param>
public sealed record SinkAnswer(SendState State, ServerVersion? Server, bool ChangedByPerson, bool ClosedByPerson, string? Code, TimeSpan? RetryAfter)
{
    /// <summary>For what is parked: a refusal as a server, or what stands before it, gives it to everybody while it is away (HTTP 3xx, 403, 404, 407).</summary>
    public bool MayBeOutage { get; init; }
}
