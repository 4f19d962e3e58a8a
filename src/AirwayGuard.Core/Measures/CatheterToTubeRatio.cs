using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Share of the inner diameter in use that the catheter takes.</summary>
public static class CatheterToTubeRatio
{
    public static readonly Measure Measure = new(
        "catheter-to-tube-ratio", Dimension.Fraction, Unit.One, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.CatheterSize, Concepts.TubeInnerDiameter, Concepts.InnerCannulaDiameter, Concepts.InnerCannulaInPlace, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.Zero, [], MayBeMissing: false,
        "catheter outside diameter as a share of the inner diameter in use",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
