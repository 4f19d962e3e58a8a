using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether desaturation is charted as the reaction to a pass; a text is an answer only as a whole.</summary>
public static class DesaturationReaction
{
    public static readonly Measure Measure = new(
        "desaturation-reaction", Dimension.Code, Unit.None, [SubjectKind.Pass],
        [Concepts.SuctionReaction],
        TimeSpan.Zero, TimeSpan.Zero, ["desaturation", AroundPass.Other], MayBeMissing: false,
        "desaturation charted as the reaction to the pass",
        Take);

    private static readonly int[] Asked = [Answers.Of("desaturation")];

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result) =>
        AroundPass.Reaction(subject, timeline, care, Asked, ref result);
}
