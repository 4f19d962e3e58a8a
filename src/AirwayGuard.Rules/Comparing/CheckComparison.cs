using System.Collections.Immutable;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What becomes of one check.</summary>
/// <param name="Name">What clinicians call it, such as <c>vacuum ceiling</c>.</param>
/// <param name="Direction">Of a check that is added or removed; else <see cref="Direction.Neither"/>: its changes have their own.</param>
/// <param name="Changes">Of an added or removed check its limits, each from or to nothing.</param>
public sealed record CheckComparison(string Id, string Name, Fate Fate, Direction Direction, ImmutableArray<Change> Changes)
{
    /// <summary>Limits in a circumstance that stay, told beside limits that change, since they go on to hold.</summary>
    public ImmutableArray<string> Stays { get; init; } = [];
}

/// <summary>What becomes of a check from one set to the other.</summary>
public enum Fate
{
    Unchanged, Changed, Added, Removed,
}
