using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether intracranial pressure is monitored; not charted counts as no.</summary>
public static class IntracranialPressureMonitored
{
    public static readonly Measure Measure = new(
        "intracranial-pressure-monitored", Dimension.YesNo, Unit.None, [SubjectKind.Pass, SubjectKind.Session, SubjectKind.Setting, SubjectKind.Order],
        [Concepts.IntracranialPressureMonitored],
        TimeSpan.FromDays(400), TimeSpan.Zero, ["yes", "no"], MayBeMissing: false,
        "intracranial pressure is monitored",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        if (subject.Kind == SubjectKind.Order && Since(subject.From, timeline, care) is >= 0 and var began)
        {
            result.Uses(timeline.FirstOf(Concepts.IntracranialPressureMonitored) + began);
            result.Set("yes");
            return;
        }

        Circumstances.Take(Concepts.IntracranialPressureMonitored, subject, timeline, ref result);
    }

    // An order in force allows what it allows also once monitoring has begun; that it was so does not pass when monitoring ends.
    private static int Since(long written, in Timeline timeline, Care care)
    {
        var facts = timeline.Of(Concepts.IntracranialPressureMonitored);
        for (var i = Timeline.FirstAfter(facts, written); i < facts.Length && facts[i].EffectiveFrom <= care.JudgedAt; i++)
        {
            if (facts[i].About == timeline.Patient && facts[i].Value.Kind == ValueKind.Yes)
            {
                return i;
            }
        }

        return -1;
    }
}
