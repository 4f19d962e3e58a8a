using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether hyperoxygenation is contraindicated; not charted counts as no.</summary>
public static class HyperoxygenationContraindicated
{
    public static readonly Measure Measure = new(
        "hyperoxygenation-contraindicated", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.HyperoxygenationContraindicated],
        TimeSpan.FromDays(400), TimeSpan.Zero, ["yes", "no"], MayBeMissing: false,
        "hyperoxygenation is charted as contraindicated",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result) =>
        Circumstances.Take(Concepts.HyperoxygenationContraindicated, subject, timeline, ref result);
}
