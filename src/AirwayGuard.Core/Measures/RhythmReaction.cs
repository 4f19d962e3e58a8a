using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether a change of heart rate or rhythm is charted as the reaction to a pass.</summary>
public static class RhythmReaction
{
    public static readonly Measure Measure = new(
        "rhythm-reaction", Dimension.Code, Unit.None, [SubjectKind.Pass],
        [Concepts.SuctionReaction],
        TimeSpan.Zero, TimeSpan.Zero, ["bradycardia", "tachycardia", "arrhythmia", AroundPass.Other], MayBeMissing: false,
        "bradycardia, tachycardia or an arrhythmia charted as the reaction to the pass",
        Take);

    private static readonly int[] Asked = [Answers.Of("bradycardia"), Answers.Of("tachycardia"), Answers.Of("arrhythmia")];

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result) =>
        AroundPass.Reaction(subject, timeline, care, Asked, ref result);
}
