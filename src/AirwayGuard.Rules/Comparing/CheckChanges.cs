using System.Collections.Immutable;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Everything that changed of a check which stands in both sets.</summary>
internal static class CheckChanges
{
    public static CheckComparison Of(Side from, Side to)
    {
        ImmutableArray<Change> changes =
        [
            .. LimitChanges.Of(from, to), .. CircumstanceChanges.Of(from, to), .. AllowanceChanges.Of(from, to),
            .. GuardSets.Unless(CheckNames.Of(to.Rule), from.Rule, to.Rule), .. ConditionChanges.Of(from, to), .. WordChanges.Of(from, to),
        ];
        return new CheckComparison(to.Rule.Id, CheckNames.Of(to.Rule), changes.IsEmpty ? Fate.Unchanged : Fate.Changed, Direction.Neither, changes)
        {
            Stays = changes.Any(change => change.Aspect == Aspects.Limit) ? [.. CircumstanceChanges.Staying(from, to)] : [],
        };
    }
}
