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
        if (SecretionAppearances.Worst(timeline, care, subject.Index, out var own) == SecretionAppearances.NotCharted)
        {
            return;
        }

        result.Charted = own;
        Span<int> last = stackalloc int[3];
        var seen = SecretionAppearances.LastCharted(timeline, care, subject, last);
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
    }
}
