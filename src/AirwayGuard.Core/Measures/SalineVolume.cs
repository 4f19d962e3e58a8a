using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Volume of saline put into the airway with a pass, or ordered, mL; of several the largest.</summary>
public static class SalineVolume
{
    public static readonly Measure Measure = new(
        "saline-volume", Dimension.Volume, Unit.Millilitre, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.SalineInstilled],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "volume of saline put into the airway with the pass, or ordered",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var unread = -1;
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            unread = fact.Concept == Concepts.SalineInstilled && fact.Value.Kind == ValueKind.Unreadable ? index : unread;
            if (fact.Concept == Concepts.SalineInstilled && fact.Value.IsNumber && (!result.HasValue || fact.Value.Amount > result.Amount))
            {
                result.Uses(index);
                result.Charted = index;
                result.Set(fact.Value.Amount, fact.Value.Unit);
                result.Comparator = fact.Value.Comparator;
            }
        }

        if (unread >= 0 && !(result.HasValue && result.Amount > 0m))
        {
            // None charted beside it does not say that it was none.
            result = Measured.Start();
            result.Uses(unread);
            result.Charted = unread;
            result.Missing = Missing.Saline;
        }
    }
}
