using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Hours from the latest surfactant to the start of a pass; nothing where none was charted before it.</summary>
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
        var facts = timeline.Of(Concepts.SurfactantGiven);
        for (var i = Timeline.FirstAfter(facts, subject.From) - 1; i >= 0; i--)
        {
            if (facts[i].About != timeline.Patient || facts[i].Value.Kind != ValueKind.Yes)
            {
                continue;
            }

            var index = timeline.FirstOf(Concepts.SurfactantGiven) + i;
            result.Uses(index);
            result.Charted = index;
            result.Set(subject.From - facts[i].EffectiveFrom, Unit.Hour, TimeSpan.TicksPerHour);
            return;
        }
    }
}
