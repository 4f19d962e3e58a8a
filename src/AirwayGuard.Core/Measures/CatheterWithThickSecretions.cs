using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Share of the inner diameter in use that the catheter takes, where thick secretions are charted in the pass or its session.</summary>
public static class CatheterWithThickSecretions
{
    public static readonly Measure Measure = new(
        "catheter-to-tube-ratio-with-thick-secretions", Dimension.Fraction, Unit.One, [SubjectKind.Pass],
        [.. CatheterToTubeRatio.Measure.Reads, Concepts.SecretionConsistency],
        TimeSpan.FromDays(400), TimeSpan.FromHours(12), [], MayBeMissing: false,
        "catheter outside diameter as a share of the inner diameter in use, where secretions are charted as thick",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var thick = Thick(care.Sessions[care.Passes[subject.Index].Session], timeline, care);
        if (thick < 0)
        {
            return;
        }

        result.Circumstance = thick;
        CatheterToTubeRatio.Measure.Function(subject, timeline, care, ref result);
    }

    private static int Thick(in SessionSpan session, in Timeline timeline, Care care)
    {
        foreach (var pass in care.PassesBySession.Slice(session.FirstPass, session.PassCount))
        {
            foreach (var index in care.MembersOf(care.Passes[pass]))
            {
                if (IsThick(timeline.Facts[index]))
                {
                    return index;
                }
            }
        }

        var facts = timeline.Of(Concepts.SecretionConsistency);
        for (var i = Timeline.FirstAfter(facts, session.To) - 1; i >= 0 && facts[i].EffectiveFrom >= session.From; i--)
        {
            if (facts[i].About == timeline.Patient && IsThick(facts[i]))
            {
                return timeline.FirstOf(Concepts.SecretionConsistency) + i;
            }
        }

        return -1;
    }

    private static bool IsThick(in Fact fact) =>
        fact.Concept == Concepts.SecretionConsistency && fact.Value.Kind == ValueKind.Code && fact.Value.Symbol == Answers.Thick;
}
