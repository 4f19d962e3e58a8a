using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether the unit of a vacuum can be trusted (contract.md §2).</summary>
public static class VacuumUnitDoubt
{
    public static readonly Measure Measure = new(
        "vacuum-unit", Dimension.Code, Unit.None, [SubjectKind.Setting, SubjectKind.Order],
        [Concepts.VacuumPressure, Concepts.VacuumSet, Concepts.OrderVacuumHigh],
        TimeSpan.FromHours(24), TimeSpan.Zero, ["doubtful", "plausible"], MayBeMissing: false,
        "whether the unit of a charted or ordered vacuum can be trusted",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
