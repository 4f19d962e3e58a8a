namespace AirwayGuard.Core.Ports;

/// <summary>A server's changes, asked for page by page.</summary>
public interface IArrivalSource
{
    /// <summary>Questions about resource types, in the order in which they are asked.</summary>
    IReadOnlyList<string> Types { get; }

    /// <summary>Questions about what was deleted; costly for the server, so asked with the wide sweep only.</summary>
    IReadOnlyList<string> Deletions { get; }

    /// <summary>Whether nothing can be judged of a server that does not answer this question.</summary>
    bool IsIndispensable(string type);

    /// <summary>One page of changes of a type since a time by the server's clock, oldest first.</summary>
    /// <param name="since">Null: everything.</param>
    /// <param name="next">What the last page said to ask next; null for the first page.</param>
    ValueTask<SourcePage> PageAsync(string type, DateTimeOffset? since, string? next, CancellationToken stop);
}

/// <param name="Next">Opaque; null at the end.</param>
/// <param name="ServerTime">The server's own time of answering; the next cursor comes from the first page's.</param>
/// <param name="Problem">What went wrong; the page then holds nothing and the cursor must not move.</param>
/// <param name="IsOffered">False where the server will not answer this question at all: asking sooner changes nothing.</param>
public sealed record SourcePage(
    IReadOnlyList<Arrival> Arrivals, string? Next, DateTimeOffset? ServerTime, Diagnostics.Problem? Problem, TimeSpan? RetryAfter, bool IsOffered = true)
{
    /// <summary>Entries that are no resource that can be kept; each is parked by its code.</summary>
    public IReadOnlyList<Diagnostics.Problem> Unusable { get; init; } = [];

    /// <summary>What came besides and was not asked for: it is not kept, and tells that the pages go on.</summary>
    public IReadOnlyList<Arrival> LeftOut { get; init; } = [];

    /// <summary>What a person should know of how the server answered, though the page can be used.</summary>
    public IReadOnlyList<Diagnostics.Problem> Remarks { get; init; } = [];

    /// <summary>The server did not keep to the time asked for, so everything is read each time: not to be asked more often than need be.</summary>
    public bool IsWhole { get; init; }

    /// <summary>False where something after this page may have been left out: the cursor must not move, though what came is kept.</summary>
    public bool IsComplete { get; init; } = true;

    /// <summary>The server speaks of more than it gave, and did so when it was asked again: a total that is wrong, or twice the same fault.</summary>
    public bool IsDoubted { get; init; }

    /// <summary>The HTTP status of an answer that gave nothing of what was asked; null where there was no answer, or one that could not be read.</summary>
    public int? Status { get; init; }

    /// <summary>False where the server was left alone for a while, since it had failed so often just before: that says nothing of why.</summary>
    public bool WasAsked { get; init; } = true;
}
