using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Mode of the regulator as a setting charts it.</summary>
public static class RegulatorMode
{
    public static readonly Measure Measure = new(
        "regulator-mode", Dimension.Code, Unit.None, [SubjectKind.Setting],
        [Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, ["regulated", "intermittent", "full-line", "off"], MayBeMissing: false,
        "mode of the vacuum regulator",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
