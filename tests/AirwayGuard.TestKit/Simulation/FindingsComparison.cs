using AirwayGuard.Core.Findings;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>Holds two runs over the same charting against each other.</summary>
internal static class FindingsComparison
{
    /// <summary>
    /// Every difference but those that are allowed. Withdrawn (of an order: cleared) here, unknown there: what was wrong for a while is a
    /// finding for whoever looked in that while, and its withdrawal is all that may be left of it. Closed by a person here and
    /// cleared there: where both became known together, the spell was over already.
    /// </summary>
    /// <param name="hand">What a person closed.</param>
    /// <param name="ignoreClosing">The other run knows nothing of what persons closed.</param>
    public static IEnumerable<string> Differences(
        IReadOnlyDictionary<Guid, RecordedFinding> here, IReadOnlyDictionary<Guid, RecordedFinding> there, string other, HandScope hand, bool ignoreClosing)
    {
        foreach (var key in here.Keys.Union(there.Keys).Order())
        {
            var (one, two) = (here.GetValueOrDefault(key), there.GetValueOrDefault(key));
            if (IsNothing(one) && IsNothing(two))
            {
                continue;
            }

            var isOver = hand.IsPerhapsClosed(key) || (hand.IsClosed(key) && (ignoreClosing || (IsOver(one) && IsOver(two))))
                || IsClosedOccurrence(one) || IsClosedOccurrence(two);
            if (one?.Comparable(isOver) != two?.Comparable(isOver))
            {
                yield return $"Recorded: {one?.ToString() ?? "nothing"}; {other}: {two?.ToString() ?? "nothing"}";
            }
        }
    }

    // Mitigated by a person, which the other run may know nothing of.
    private static bool IsClosedOccurrence(RecordedFinding? finding) => finding is { Kind: FindingKind.Occurrence, State: FindingState.ClosedByPerson };

    private static bool IsOver(RecordedFinding? finding) => finding is { State: FindingState.ClosedByPerson or FindingState.Cleared };

    // What was said of an order ends with it; of one that was over before anybody looked nothing was ever said. What could not be
    // told for a while can be told by whoever looks later.
    private static bool IsNothing(RecordedFinding? finding) =>
        finding is null or { State: FindingState.Withdrawn } or { Check: "suction-ordered-by-clock", State: FindingState.Cleared }
            or { Kind: FindingKind.CannotTell, State: FindingState.Cleared };
}
