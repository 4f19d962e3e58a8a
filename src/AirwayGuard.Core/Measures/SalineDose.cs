using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Saline of one pass, or as ordered, per body weight, mL/kg. Several amounts of one pass: the largest.</summary>
public static class SalineDose
{
    public static readonly Measure Measure = new(
        "saline-dose", Dimension.VolumePerWeight, Unit.MillilitrePerKilogram, [SubjectKind.Pass, SubjectKind.Order],
        [Concepts.SalineInstilled, Concepts.BodyWeight],
        TimeSpan.FromDays(7), TimeSpan.Zero, [], MayBeMissing: false,
        "saline of one pass, or as ordered, per kilogram of body weight",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var (largest, isGiven, unread) = (-1, false, -1);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.SalineInstilled)
            {
                isGiven |= fact.Value.Kind == ValueKind.Yes;
                unread = fact.Value.Kind == ValueKind.Unreadable ? index : unread;
                largest = fact.Value.IsNumber && fact.Value.Amount > 0m && (largest < 0 || fact.Value.Amount > timeline.Facts[largest].Value.Amount) ? index : largest;
            }
        }

        if (largest < 0)
        {
            result.Missing = isGiven ? Missing.SalineVolume : unread >= 0 ? Missing.Saline : Missing.Nothing;
            return;
        }

        result.Uses(largest);
        result.Charted = largest;
        var value = timeline.Facts[largest].Value;
        // An order allows up to what it states.
        result.Comparator = subject.Kind == SubjectKind.Order && value.Comparator is Comparator.Below or Comparator.AtMost ? Comparator.Exactly : value.Comparator;
        var weight = BodyWeight.At(timeline, subject, out var kilograms);
        if (weight < 0)
        {
            result.Missing = Missing.BodyWeight;
            return;
        }

        result.Uses(weight);
        result.Set(value.Amount, Unit.MillilitrePerKilogram, kilograms);
    }
}
