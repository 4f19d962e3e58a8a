using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the inner diameter of an airway that is suctioned is on file.</summary>
public static class TubeDiameter
{
    public static readonly Measure Measure = new(
        "tube-diameter", Dimension.YesNo, Unit.None, [SubjectKind.Airway],
        [Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.FromDays(400), ["yes"], MayBeMissing: true,
        "the inner diameter in use of an airway that was suctioned or that a catheter was ordered for",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        if (Is(timeline, care, subject.Index, subject.From, ref result))
        {
            result.Set("yes");
            return;
        }

        // Charted later, it ends the finding.
        var best = -1;
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace])
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, subject.From); i < facts.Length && facts[i].EffectiveFrom < care.Airways[subject.Index].To; i++)
            {
                var ignored = Measured.Start();
                if ((best < 0 || facts[i].EffectiveFrom < timeline.Facts[best].EffectiveFrom)
                    && Is(timeline, care, subject.Index, facts[i].EffectiveFrom, ref ignored))
                {
                    best = timeline.FirstOf(concept) + i;
                    break;
                }
            }
        }

        result.EndedAt = best < 0 ? 0 : timeline.Facts[best].EffectiveFrom;
        result.EndedBy = best;
    }

    private static bool Is(in Timeline timeline, Care care, int airway, long at, ref Measured result)
    {
        var tried = Measured.Start();
        if (InnerDiameter.At(timeline, care, airway, at, ref tried) <= 0m && tried.Missing != Missing.ExactValue)
        {
            return false;
        }

        for (var i = 0; i < tried.Count; i++)
        {
            result.Uses(tried.FactAt(i));
        }

        return true;
    }
}
