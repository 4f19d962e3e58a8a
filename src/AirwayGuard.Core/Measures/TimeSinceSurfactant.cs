using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Hours from the latest surfactant to the start of a pass; nothing where none was charted before it. A later row that cannot be read may have
/// been surfactant too.
/// </summary>
public static class TimeSinceSurfactant
{
    public static readonly Measure Measure = new(
        "time-since-surfactant", Dimension.Duration, Unit.Hour, [SubjectKind.Pass],
        [Concepts.SurfactantGiven],
        TimeSpan.FromDays(2), TimeSpan.Zero, [], MayBeMissing: false,
        "hours from the latest surfactant to the start of the pass",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var given = Latest(subject, timeline, ValueKind.Yes);
        var unread = Latest(subject, timeline, ValueKind.Unreadable);
        unread = given >= 0 && unread >= 0 && timeline.Facts[unread].EffectiveFrom <= timeline.Facts[given].EffectiveFrom ? -1 : unread;
        var index = given >= 0 ? given : unread;
        if (index < 0)
        {
            return;
        }

        result.Uses(index);
        result.Charted = index;
        result.Set(subject.From - timeline.Facts[index].EffectiveFrom, Unit.Hour, TimeSpan.TicksPerHour);
        if (given < 0)
        {
            result.BreachIs = Missing.Surfactant;
        }
        else if (unread >= 0)
        {
            result.Uses(unread);
            (result.Could, result.OverIs) = ((subject.From - timeline.Facts[unread].EffectiveFrom) / (decimal)TimeSpan.TicksPerHour, Missing.Surfactant);
        }
    }

    private static int Latest(in Subject subject, in Timeline timeline, ValueKind kind)
    {
        var facts = timeline.Of(Concepts.SurfactantGiven);
        for (var i = Timeline.FirstAfter(facts, subject.From) - 1; i >= 0; i--)
        {
            if (facts[i].About == timeline.Patient && facts[i].Value.Kind == kind)
            {
                return timeline.FirstOf(Concepts.SurfactantGiven) + i;
            }
        }

        return -1;
    }
}
