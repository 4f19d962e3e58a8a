using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the inner diameter of an airway that is suctioned is on file.</summary>
public static class TubeDiameter
{
    private static readonly Concept[] Told = [Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace];

    public static readonly Measure Measure = new(
        "tube-diameter", Dimension.YesNo, Unit.None, [SubjectKind.Airway],
        [Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.FromDays(400), ["yes"], MayBeMissing: true,
        "the inner diameter in use of an airway that was suctioned or that a catheter was ordered for",
        Take);

    /// <summary>A diameter that is charted by then, if only as a bound, is on file.</summary>
    internal static bool IsKnown(in Timeline timeline, Care care, int airway, long at, ref Measured result)
    {
        var tried = Measured.Start();
        if (InnerDiameter.At(timeline, care, airway, at, ref tried, onFileThen: true) <= 0m && tried.Missing != Missing.ExactValue)
        {
            return false;
        }

        for (var i = 0; i < tried.Count; i++)
        {
            result.Uses(tried.FactAt(i));
        }

        return true;
    }

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        if (IsKnown(timeline, care, subject.Index, subject.From, ref result))
        {
            result.Set("yes");
            return;
        }

        // Charted later, it ends the finding; so does the end of a cannula's use.
        var (best, at) = (-1, long.MaxValue);
        foreach (var concept in Told)
        {
            var facts = timeline.Of(concept);
            for (var i = Timeline.FirstAfter(facts, subject.From); i < facts.Length && facts[i].EffectiveFrom < at; i++)
            {
                if (IsKnownFrom(facts[i].EffectiveFrom, subject, timeline, care))
                {
                    (best, at) = (timeline.FirstOf(concept) + i, facts[i].EffectiveFrom);
                }
            }
        }

        foreach (ref readonly var use in timeline.Links)
        {
            if (use.Kind == LinkKind.UsedBy && use.To == timeline.Patient && care.KindOf(use.From) == Answers.InnerCannula)
            {
                foreach (var change in (ReadOnlySpan<long>)[use.FromTime, use.ToTime])
                {
                    (best, at) = change > subject.From && change < at && IsKnownFrom(change, subject, timeline, care) ? (-1, change) : (best, at);
                }
            }
        }

        result.EndedAt = at == long.MaxValue ? 0 : at;
        result.EndedBy = best;
    }

    private static bool IsKnownFrom(long at, in Subject subject, in Timeline timeline, Care care)
    {
        var ignored = Measured.Start();
        return at < care.Airways[subject.Index].To && IsKnown(timeline, care, subject.Index, at, ref ignored);
    }
}
