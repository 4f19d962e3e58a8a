using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Blood-stained sessions among the last three with an appearance.</summary>
public static class BloodStainedSessions
{
    public static readonly Measure Measure = new(
        "blood-stained-sessions", Dimension.Count, Unit.Count, [SubjectKind.Session],
        [Concepts.SecretionAppearance],
        TimeSpan.FromDays(30), TimeSpan.Zero, [], MayBeMissing: false,
        "sessions with blood-streaked secretions or frank blood among the last three with a charted appearance",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        if (SecretionAppearances.Worst(timeline, care, subject.Index, out var own) == SecretionAppearances.NotCharted)
        {
            return;
        }

        result.Charted = own;
        var episode = care.EpisodeAt(subject.From);
        var (seen, stained) = (0, 0);
        for (var i = subject.Index; i >= 0 && seen < 3; i--)
        {
            if (care.EpisodeAt(care.Sessions[i].From) != episode)
            {
                continue;
            }

            var appearance = SecretionAppearances.Worst(timeline, care, i, out var fact);
            if (appearance == SecretionAppearances.NotCharted)
            {
                continue;
            }

            seen++;
            stained += appearance == SecretionAppearances.Clear ? 0 : 1;
            result.Uses(fact);
        }

        result.Set(stained, Unit.Count);
        result.Clearing = seen == 3 && stained == 0 ? ClearingStrength.Full : ClearingStrength.Never;
    }
}
