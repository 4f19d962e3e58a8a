using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Shallow or deep suction, as charted with the pass or its session, or as ordered. Of both charted together deep counts.</summary>
public static class DepthTechnique
{
    private static readonly int Deep = Answers.Of("deep");

    public static readonly Measure Measure = new(
        "depth-technique", Dimension.Code, Unit.None, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.DepthTechnique],
        TimeSpan.FromHours(12), TimeSpan.FromHours(12), ["shallow", "deep"], MayBeMissing: false,
        "shallow or deep suction",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var found = -1;
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.DepthTechnique && fact.Value.Kind == ValueKind.Code && (found < 0 || fact.Value.Symbol == Deep))
            {
                found = index;
            }
        }

        if (found < 0 && subject.Kind == SubjectKind.Pass)
        {
            found = HeldInSession.Of(Concepts.DepthTechnique, subject.Index, timeline, care, Deep);
        }

        if (found >= 0)
        {
            result.Uses(found);
            result.Charted = found;
            result.Set(Answers.Code(timeline.Facts[found].Value.Symbol));
        }
    }
}
