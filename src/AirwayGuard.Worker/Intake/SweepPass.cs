namespace AirwayGuard.Worker.Intake;

/// <summary>One question being asked, from its first page to its last.</summary>
/// <param name="IsWide">Looks back the overlap.</param>
/// <param name="Since">By the server's clock; null for everything.</param>
/// <param name="ServerTime">Of the first page; the next cursor.</param>
/// <param name="Next">What to ask next; null for the first page.</param>
internal sealed record SweepPass(string Query, bool IsWide, DateTimeOffset? Since, DateTimeOffset? ServerTime, string? Next)
{
    /// <summary>Our own time when the first page came.</summary>
    public DateTimeOffset At { get; init; }

    /// <summary>How far the server's clock was ahead of ours at the last wide sweep; null where that is not known, or taken into account already.</summary>
    public TimeSpan? WasAhead { get; init; }

    /// <summary>Everything was read, whatever was asked for.</summary>
    public bool IsWhole { get; init; }

    /// <summary>Nothing may have been left out.</summary>
    public bool IsComplete { get; init; } = true;

    /// <summary>Fewer came than the server said there were, and it said so again.</summary>
    public bool IsDoubted { get; init; }

    public PageChain Chain { get; } = new();

    /// <summary>Codes of what a page remarked.</summary>
    public IReadOnlyList<string> Remarked { get; init; } = [];
}
