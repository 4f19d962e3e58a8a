using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Vacuum depth of a setting, in mm[Hg] or as charted.</summary>
public static class VacuumPressure
{
    public static readonly Measure Measure = new(
        "vacuum-pressure", Dimension.Pressure, Unit.MmHg, [SubjectKind.Setting],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.VacuumReadingMethod, Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, [], MayBeMissing: false,
        "vacuum depth below ambient, read or set",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
