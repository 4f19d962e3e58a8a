using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Pressure in the cuff of a tube; never read as vacuum.</summary>
public static class CuffPressure
{
    public static readonly Measure Measure = new(
        "cuff-pressure", Dimension.Pressure, Unit.CmH2O, [SubjectKind.Cuff],
        [Concepts.CuffPressure, Concepts.AirwayType],
        TimeSpan.FromDays(400), TimeSpan.Zero, [], MayBeMissing: false,
        "pressure in the cuff of the tube",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var index = care.CuffRows[subject.Index];
        ref readonly var fact = ref timeline.Facts[index];
        if (fact.Value.Kind == ValueKind.Unreadable)
        {
            result.Uses(index);
            result.Charted = index;
            result.Missing = Missing.CuffPressure;
            return;
        }

        if (!Units.IsPressure(fact.Value.Unit))
        {
            return;
        }

        result.Uses(index);
        result.Charted = index;
        result.Set(fact.Value.Amount, fact.Value.Unit);
        result.Comparator = fact.Value.Comparator;
        result.Clearing = ClearingStrength.Full;
    }
}
