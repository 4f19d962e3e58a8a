using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Whether pre-oxygenation stands before a pass.</summary>
public static class PreoxygenationGiven
{
    public static readonly Measure Measure = new(
        "preoxygenation-given", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.Preoxygenation, Concepts.Fio2],
        TimeSpan.FromHours(4), TimeSpan.Zero, ["yes"], MayBeMissing: true,
        "oxygen of 99 % or more, or charted pre-oxygenation, within two minutes before the pass",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
