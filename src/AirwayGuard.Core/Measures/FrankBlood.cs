using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Frank blood in a session.</summary>
public static class FrankBlood
{
    public static readonly Measure Measure = new(
        "frank-blood", Dimension.Count, Unit.Count, [SubjectKind.Session],
        [Concepts.SecretionAppearance],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "1 where frank blood was charted in the session, else 0",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var appearance = SecretionAppearances.Worst(timeline, care, subject.Index, out var fact);
        if (appearance == SecretionAppearances.NotCharted)
        {
            return;
        }

        result.Uses(fact);
        result.Charted = fact;
        result.Set(appearance == SecretionAppearances.Frank ? 1m : 0m, Unit.Count);
    }
}
