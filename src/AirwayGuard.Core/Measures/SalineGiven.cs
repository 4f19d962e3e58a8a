using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether saline is said to be put into the airway, or ordered to be; a volume is another measure.</summary>
public static class SalineGiven
{
    public static readonly Measure Measure = new(
        "saline-given", Dimension.YesNo, Unit.None, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.SalineInstilled],
        TimeSpan.Zero, TimeSpan.Zero, ["true", "false"], MayBeMissing: false,
        "saline put into the airway with the pass, or ordered to be, as a yes or no",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.SalineInstilled && fact.Value.Kind is ValueKind.Yes or ValueKind.No && result.Code != "true")
            {
                result.Uses(index);
                result.Charted = index;
                result.Set(fact.Value.Kind == ValueKind.Yes ? "true" : "false");
            }
        }
    }
}
