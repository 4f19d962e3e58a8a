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
        Span<int> last = stackalloc int[SecretionAppearances.Looked];
        if (!SecretionAppearances.TryLastCharted(timeline, care, subject, last, ref result, out var seen))
        {
            return;
        }

        var stained = 0;
        foreach (var session in last[..seen])
        {
            stained += SecretionAppearances.Worst(timeline, care, session, out var fact) == SecretionAppearances.Clear ? 0 : 1;
            result.Uses(fact);
        }

        result.Set(stained, Unit.Count);
        result.Clearing = seen == SecretionAppearances.Looked && stained == 0 ? ClearingStrength.Full : ClearingStrength.Never;
        SecretionAppearances.NoteUnread(timeline, care, subject, SecretionAppearances.Streaked, ref result);
    }
}
