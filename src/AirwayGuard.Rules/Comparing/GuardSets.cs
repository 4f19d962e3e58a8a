using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Guards that hold together: all of them must, in whatever order they are written.</summary>
internal static class GuardSets
{
    public static bool AreSame(ImmutableArray<Guard> one, ImmutableArray<Guard> other) => IsWithin(one, other) && IsWithin(other, one);

    /// <summary>The change of <c>unless</c>; nothing where it is the same.</summary>
    public static IEnumerable<Change> Unless(string name, Rule from, Rule to)
    {
        if (AreSame(from.Unless, to.Unless))
        {
            yield break;
        }

        var (was, now) = (InWords(from.Unless), InWords(to.Unless));
        yield return new Change(
            Aspects.Unless, [], $"{ClinicalWords.Capital(name)}, not judged where: {was} becomes {now}", Way(from.Unless, to.Unless), was, now);
    }

    public static string InWords(ImmutableArray<Guard> guards) => guards.IsEmpty ? "nowhere" : ClinicalWords.Circumstance(guards);

    // One more that must hold too leaves less out.
    private static Direction Way(ImmutableArray<Guard> from, ImmutableArray<Guard> to) =>
        from.IsEmpty ? Direction.Looser
        : to.IsEmpty || IsWithin(from, to) ? Direction.Stricter
        : IsWithin(to, from) ? Direction.Looser
        : Direction.Neither;

    private static bool IsWithin(ImmutableArray<Guard> some, ImmutableArray<Guard> all) =>
        some.All(one => all.Any(other => ReferenceEquals(one.Measure, other.Measure) && one.Limit.ComparesAs(other.Limit)));
}
