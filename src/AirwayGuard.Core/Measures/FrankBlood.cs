using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Sessions with frank blood among the last three with an appearance.</summary>
public static class FrankBlood
{
    public static readonly Measure Measure = new(
        "frank-blood", Dimension.Count, Unit.Count, [SubjectKind.Session],
        [Concepts.SecretionAppearance],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "sessions with frank blood among the last three with a charted appearance",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        Span<int> last = stackalloc int[SecretionAppearances.Looked];
        if (!SecretionAppearances.TryLastCharted(timeline, care, subject, last, ref result, out var seen))
        {
            return;
        }

        var frank = 0;
        foreach (var session in last[..seen])
        {
            if (SecretionAppearances.Worst(timeline, care, session, out var fact) == SecretionAppearances.Frank)
            {
                frank++;
                result.Uses(fact);
            }
        }

        result.Set(frank, Unit.Count);
        SecretionAppearances.NoteUnread(timeline, care, subject, SecretionAppearances.Frank, ref result);
    }
}
