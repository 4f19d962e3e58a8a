using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>What makes suction fall due under an order.</summary>
public static class OrderTiming
{
    public static readonly Measure Measure = new(
        "order-timing", Dimension.Code, Unit.None, [SubjectKind.Order],
        [Concepts.OrderByClock, Concepts.OrderAsNeeded],
        TimeSpan.Zero, TimeSpan.Zero, ["by-clock", "as-needed"], MayBeMissing: false,
        "whether an order makes suction fall due by time whatever is found",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        result.Missing = Missing.ExactValue;
    }
}
