using System.Collections.Immutable;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What becomes of each check from one rule set to another: checks in the first set's order, then those that are added.</summary>
public sealed record RuleSetComparison(RuleSetReading From, RuleSetReading To, ImmutableArray<CheckComparison> Checks)
{
    /// <summary>True where no check, limit, source or word differs; names, versions and remarks of the documents may.</summary>
    public bool AreEqual => Checks.All(check => check.Fate == Fate.Unchanged);

    /// <exception cref="ArgumentException">One of them has faults: a set is never compared in part.</exception>
    public static RuleSetComparison Of(RuleSetReading from, RuleSetReading to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        var one = from.RuleSet ?? throw new ArgumentException("The rule set has faults.", nameof(from));
        var other = to.RuleSet ?? throw new ArgumentException("The rule set has faults.", nameof(to));
        return new RuleSetComparison(from, to,
        [
            .. one.Rules.Select(rule => other.Find(rule.Id) is { } same
                ? CheckChanges.Of(new Side(rule, one), new Side(same, other))
                : WholeCheck.Removed(new Side(rule, one))),
            .. other.Rules.Where(rule => one.Find(rule.Id) is null).Select(rule => WholeCheck.Added(new Side(rule, other))),
        ]);
    }

    public int CountOf(Fate fate) => Checks.Count(check => check.Fate == fate);

    /// <summary>Limits of checks that stand in both sets and changed this way.</summary>
    public int Limits(Direction direction) => Changes.Count(change => change.IsLimit && change.Direction == direction);

    /// <summary>What else changed of checks that stand in both sets.</summary>
    public int Others(Direction direction) => Changes.Count(change => !change.IsLimit && change.Direction == direction);

    private IEnumerable<Change> Changes => Checks.Where(check => check.Fate == Fate.Changed).SelectMany(check => check.Changes);
}

/// <summary>A check in the set that holds it.</summary>
internal readonly record struct Side(Rule Rule, RuleSet Set)
{
    public string Title(string source) => Set.Sources.FirstOrDefault(one => one.Id == source)?.Title ?? "";
}
