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
        ref readonly var order = ref care.Orders[subject.Index];
        var byClock = -1;
        foreach (var index in care.FactsOf(order))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.OrderDoNotSuction && fact.Value.Kind == ValueKind.Yes)
            {
                return;
            }

            if (fact.Concept == Concepts.OrderByClock && (byClock < 0 || fact.Value.Kind == ValueKind.Yes))
            {
                byClock = index;
            }
        }

        if (byClock < 0)
        {
            // A request for equipment alone says nothing of when to suction.
            result.Missing = order.IsService ? Missing.OrderTiming : Missing.Nothing;
        }
        else
        {
            result.Uses(byClock);
            result.Set(timeline.Facts[byClock].Value.Kind == ValueKind.Yes ? "by-clock" : "as-needed");
        }
    }
}
