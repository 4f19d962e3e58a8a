using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Passes of a session: the larger of those found and the largest pass-count charted with one of them. A count that cannot be read may have
/// been any.
/// </summary>
public static class PassesInSession
{
    public static readonly Measure Measure = new(
        "passes-in-session", Dimension.Count, Unit.Count, [SubjectKind.Session],
        [Concepts.SuctionPass, Concepts.PassCount],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "passes of one session: the larger of those found and the largest count charted",
        Take);

    /// <summary>More than any limit; only compared, never shown.</summary>
    private const decimal Any = 1_000_000m;

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var session = ref care.Sessions[subject.Index];
        result.Set(session.PassCount, Unit.Count);
        var (largest, unread) = (-1, -1);
        foreach (var pass in care.PassesOf(session))
        {
            foreach (var index in care.MembersOf(care.Passes[pass]))
            {
                ref readonly var fact = ref timeline.Facts[index];
                if (fact.Concept == Concepts.PassCount && fact.Value.IsNumber && fact.Value.Amount > result.Amount)
                {
                    largest = index;
                    result.Amount = fact.Value.Amount;
                    result.Comparator = fact.Value.Comparator;
                }

                unread = fact.Concept == Concepts.PassCount && fact.Value.Kind == ValueKind.Unreadable ? index : unread;
            }
        }

        if (largest >= 0)
        {
            result.Uses(largest);
            result.Charted = largest;
        }

        var others = OfUnknownUse(care, session);
        if (others > 0)
        {
            (result.Could, result.OverIs) = (Math.Max(result.Amount, session.PassCount + others), Missing.PassUse);
        }

        if (unread >= 0)
        {
            result.Uses(unread);
            (result.Could, result.OverIs) = (Any, Missing.PassCount);
        }
    }

    // Passes in its midst, or close by, that would be the session's if they were the airway's.
    private static int OfUnknownUse(Care care, in SessionSpan session)
    {
        var (count, to) = (0, session.To + CareTimes.SessionGap);
        for (var i = care.PassesUntil(session.From - CareTimes.SessionGap - 1); i < care.Passes.Length && care.Passes[i].From <= to; i++)
        {
            count += care.Passes[i].UseUnknown ? 1 : 0;
        }

        return count;
    }
}
