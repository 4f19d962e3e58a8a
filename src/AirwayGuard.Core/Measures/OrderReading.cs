using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// How much of an order was read: all, not all, or nothing beyond that it is an order; full line or intermittent suction is named, as no
/// limit can be held against it. Of a request for equipment tied to it the same
/// is asked.
/// </summary>
public static class OrderReading
{
    public static readonly Measure Measure = new(
        "order-reading", Dimension.Code, Unit.None, [SubjectKind.Order],
        [Concepts.OrderUnread, Concepts.RegulatorMode],
        TimeSpan.Zero, TimeSpan.Zero, ["read", "unread", "nothing-read", "full-line", "intermittent"], MayBeMissing: false,
        "whether everything an order says was read",
        Take)
    {
        ShowsNoValue = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var isAnyRead = false;
        var (unread, bypass) = (-1, 0);
        foreach (var index in Own.Facts(subject, care))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (fact.Concept == Concepts.OrderUnread || fact.Value.Kind == ValueKind.Unreadable || OrderedMode.IsBypass(fact))
            {
                unread = index;
                bypass = OrderedMode.IsBypass(fact) && bypass != Answers.FullLine ? fact.Value.Symbol : bypass;
                result.Uses(index);
            }
            else
            {
                isAnyRead |= fact.Concept != Concepts.OrderStatus && fact.Concept != Concepts.OrderIntent && fact.Concept != Concepts.OrderHeldAfter;
            }
        }

        result.Charted = unread;
        result.Set(bypass > 0 ? Answers.Code(bypass) : unread >= 0 ? "unread" : isAnyRead ? "read" : "nothing-read");
    }
}
