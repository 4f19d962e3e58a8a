using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Share of the inner diameter in use that the catheter takes, where thick secretions are charted with the pass.</summary>
public static class CatheterWithThickSecretions
{
    public static readonly Measure Measure = new(
        "catheter-to-tube-ratio-with-thick-secretions", Dimension.Fraction, Unit.One, [SubjectKind.Pass],
        [.. CatheterToTubeRatio.Measure.Reads, Concepts.SecretionConsistency],
        TimeSpan.FromDays(400), TimeSpan.FromDays(400), [], MayBeMissing: false,
        "catheter outside diameter as a share of the inner diameter in use, where secretions are charted as thick",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var thick = Thick(timeline, care, care.Passes[subject.Index]);
        if (thick < 0)
        {
            return;
        }

        result.Circumstance = thick;
        CatheterToTubeRatio.Measure.Function(subject, timeline, care, ref result);
    }

    // Secretions change from pass to pass: those of another pass say nothing of this one.
    private static int Thick(in Timeline timeline, Care care, in PassSpan pass)
    {
        foreach (var index in care.MembersOf(pass))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.SecretionConsistency && fact.Value.Kind == ValueKind.Code && fact.Value.Symbol == Answers.Thick)
            {
                return index;
            }
        }

        return -1;
    }
}
