using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Orders;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// How much of an order was read: all, not all, or nothing beyond that it is an order; full line or intermittent suction is named, as no
/// limit can be held against it, and so are several vacuums or catheters that differ. Of a request for equipment tied to it the same
/// is asked.
/// </summary>
public static class OrderReading
{
    public static readonly Measure Measure = new(
        "order-reading", Dimension.Code, Unit.None, [SubjectKind.Order],
        [Concepts.OrderUnread, Concepts.SuctionUse, Concepts.RegulatorMode, Concepts.OrderVacuumHigh, Concepts.CatheterSize],
        TimeSpan.Zero, TimeSpan.Zero, ["read", "unread", "nothing-read", "full-line", "intermittent", "values-differ"], MayBeMissing: false,
        "whether everything an order says was read",
        Take)
    {
        ShowsNoValue = true,
        AsksOfCharting = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var isAnyRead = false;
        var (unread, bypass) = (-1, 0);
        var (vacuum, catheter, differing) = (-1, -1, -1);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.OrderUnread || (fact.Concept == Concepts.SuctionUse && care.Orders[subject.Index].UseUnknown) || fact.Value.Kind == ValueKind.Unreadable || OrderedMode.IsBypass(fact))
            {
                unread = index;
                bypass = OrderedMode.IsBypass(fact) && bypass != Answers.FullLine ? fact.Value.Symbol : bypass;
                result.Uses(index);
            }
            else
            {
                differing = Differs(timeline, Concepts.OrderVacuumHigh, index, ref vacuum) || Differs(timeline, Concepts.CatheterSize, index, ref catheter) ? index : differing;
                isAnyRead |= fact.Concept != Concepts.OrderStatus && fact.Concept != Concepts.OrderIntent && fact.Concept != Concepts.OrderHeldAfter;
            }
        }

        if (differing >= 0)
        {
            result.Uses(differing);
        }

        result.Charted = unread >= 0 ? unread : differing;
        result.Set(bypass > 0 ? Answers.Code(bypass) : differing >= 0 ? "values-differ" : unread >= 0 ? "unread" : isAnyRead ? "read" : "nothing-read");
    }

    // Of one concept, the first number that is read is what the others are held against.
    private static bool Differs(in Timeline timeline, Concept concept, int index, ref int first)
    {
        ref readonly var fact = ref timeline.Facts[index];
        if (fact.Concept != concept || !fact.Value.IsNumber)
        {
            return false;
        }

        first = first < 0 ? index : first;
        return Size(fact.Value) != Size(timeline.Facts[first].Value) && !AreTwoOrders(fact.Id, timeline.Facts[first].Id);
    }

    // Two orders in one text may well ask for different things.
    private static bool AreTwoOrders(FactId one, FactId other) =>
        one.Arrival == other.Arrival && TextOrdinal.PartOf(one.Ordinal) is >= 0 and var part && TextOrdinal.PartOf(other.Ordinal) is >= 0 and var otherPart && part != otherPart;

    private static decimal Size(in FactValue value) => value.Unit == Unit.Millimetre ? 3m * value.Magnitude : VacuumPressure.Depth(value);
}
