using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whole vacuum of a wall outlet, read with the line occluded.</summary>
public static class WallSupply
{
    public static readonly Measure Measure = new(
        "wall-supply", Dimension.Pressure, Unit.MmHg, [SubjectKind.Outlet],
        [Concepts.FullLineVacuum],
        TimeSpan.Zero, TimeSpan.Zero, [], MayBeMissing: false,
        "an outlet's whole vacuum, read with the line occluded",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var index = care.OutletRows[subject.Index];
        ref readonly var fact = ref timeline.Facts[index];
        result.Uses(index);
        result.Charted = index;
        if (UnitDoubt.IsDoubtfulAlone(fact.Value))
        {
            result.Missing = Missing.VacuumUnit;
            return;
        }

        result.Set(fact.Value.Magnitude, fact.Value.Unit);
        result.Comparator = fact.Value.Comparator;
        result.Clearing = ClearingStrength.Full;
    }
}
