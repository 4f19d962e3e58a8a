using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Mutants of tubes, catheters, cuffs and depths.</summary>
internal static class AirwayMutants
{
    public static ImmutableArray<EngineMutant> All { get; } =
    [
        new("french-by-circumference", "Measures/CatheterToTubeRatio.cs",
            "3m * diameter",
            "3.14m * diameter",
            "French is taken for the circumference, and a catheter of more than half of the tube passes."),
        new("order-ends-a-finding", "Measures/CatheterToTubeRatio.cs",
            "isOrder ? ClearingStrength.Never : ClearingStrength.Full;",
            "ClearingStrength.Full;",
            "An order for a thinner catheter ends what is told of the one in use."),
        new("closed-catheter-past-its-end", "Measures/CatheterInUse.cs",
            "pass.From < link.ToTime",
            "pass.From <= link.ToTime",
            "A catheter that was just taken off is judged as in use."),
        new("tube-for-cannula", "Measures/InnerDiameter.cs",
            "isInPlace ? cannula : span.DiameterFact;",
            "span.DiameterFact;",
            "A catheter that blocks the inner cannula passes by the width of the tube around it."),
        new("cannula-out-stays", "Measures/InnerCannula.cs",
            "millimetres == 0m)",
            "millimetres < 0m)",
            "A cannula charted as taken out is judged as still there."),
        new("size-after-removal-ends", "Measures/TubeDiameter.cs",
            "return at < care.Airways[subject.Index].To && IsKnown(",
            "return IsKnown(",
            "A size charted after the tube was out ends that it was missing."),
        new("thin-secretions-count", "Measures/CatheterWithThickSecretions.cs",
            " && fact.Value.Symbol == Answers.Thick)",
            ")",
            "Thin secretions allow the catheter that thick ones need."),
        new("cuff-unread-passes", "Measures/CuffPressure.cs",
            "result.Missing = Missing.CuffPressure;",
            "result.Missing = Missing.Nothing;",
            "A cuff pressure that nobody can read is left out in silence."),
        new("adapter-forgotten", "Measures/DepthBeyondTube.cs",
            "- (adapter < 0 ? 0m : Millimetres(timeline, adapter)))",
            ")",
            "The adapter's length counts as depth in the trachea, and every pass is too deep."),
        new("longer-tube", "Measures/TubeLengths.cs",
            "out var other) && length < other)",
            "out var other) && length > other)",
            "Of two lengths of one instant the longer hides that a catheter went too deep."),
        new("earlier-length-ends", "Measures/SafeDepth.cs",
            "Math.Max(tubeAt, adapterAt)",
            "Math.Min(tubeAt, adapterAt)",
            "The first of two lengths ends that both are needed."),
    ];
}
