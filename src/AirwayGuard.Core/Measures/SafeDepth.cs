using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the lengths that give a safe depth, of tube and adapter, are on file for an airway that is suctioned.</summary>
public static class SafeDepth
{
    public static readonly Measure Measure = new(
        "safe-depth", Dimension.YesNo, Unit.None, [SubjectKind.SuctionedAirway],
        [Concepts.TubeLength, Concepts.AdapterLength, Concepts.AirwayType, Concepts.TubeInnerDiameter],
        TimeSpan.FromDays(400), TimeSpan.FromDays(400), ["yes"], MayBeMissing: true,
        "the lengths of tube and adapter of an airway that was suctioned",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var tube = TubeLengths.At(Concepts.TubeLength, timeline, care, subject.Index, subject.From);
        var adapter = TubeLengths.At(Concepts.AdapterLength, timeline, care, subject.Index, subject.From);
        if (tube >= 0 && adapter >= 0)
        {
            result.Uses(tube);
            result.Uses(adapter);
            result.Set("yes");
            return;
        }

        // Both are needed: the later of the two ends it.
        var (tubeBy, tubeAt) = FirstCharted(Concepts.TubeLength, tube, subject, timeline, care);
        var (adapterBy, adapterAt) = FirstCharted(Concepts.AdapterLength, adapter, subject, timeline, care);
        var end = Math.Max(tubeAt, adapterAt);
        result.EndedAt = end == long.MaxValue ? 0 : end;
        result.EndedBy = end == long.MaxValue ? -1 : tubeAt >= adapterAt ? tubeBy : adapterBy;
    }

    private static (int By, long At) FirstCharted(Concept concept, int known, in Subject subject, in Timeline timeline, Care care)
    {
        if (known >= 0)
        {
            return (known, long.MinValue);
        }

        var facts = timeline.Of(concept);
        for (var i = Timeline.FirstAfter(facts, subject.From); i < facts.Length && facts[i].EffectiveFrom < care.Airways[subject.Index].To; i++)
        {
            if (TubeLengths.At(concept, timeline, care, subject.Index, facts[i].EffectiveFrom) is >= 0 and var by)
            {
                return (by, facts[i].EffectiveFrom);
            }
        }

        return (-1, long.MaxValue);
    }
}
