using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// Whether a pass was made although an order written before it forbids suction altogether, or although every order of suction
/// written before it was on hold by then. Nothing where no order says either way.
/// </summary>
public static class SuctionAgainstOrder
{
    public static readonly Measure Measure = new(
        "suction-against-order", Dimension.YesNo, Unit.None, [SubjectKind.Pass],
        [Concepts.OrderStatus, Concepts.OrderHeldAfter, Concepts.OrderIntent, Concepts.OrderDoNotSuction],
        TimeSpan.FromDays(400), TimeSpan.Zero, ["yes", "no"], MayBeMissing: false,
        "whether suction was forbidden, or its every order on hold, when the pass began",
        Take)
    {
        ShowsNoValue = true,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var (isOrdered, mayBeOrdered, unclear) = (false, false, -1);
        foreach (ref readonly var order in care.Orders)
        {
            // Equipment alone says nothing of whether to suction.
            if (!order.IsService || order.AuthoredOn >= subject.From)
            {
                continue;
            }

            isOrdered |= !order.UseUnknown;
            mayBeOrdered |= order.UseUnknown;
            if (Forbids(timeline, care, order, subject.From, out var isClear) is >= 0 and var forbidden)
            {
                if (isClear && !order.UseUnknown)
                {
                    Say("yes", forbidden, ref result);
                    return;
                }

                unclear = forbidden;
            }
        }

        AskHeld(subject.From, timeline, care, ref isOrdered, ref mayBeOrdered, ref unclear, ref result);
        if (unclear >= 0)
        {
            result.Uses(unclear);
            result.Charted = unclear;
            result.Missing = Missing.WhetherForbidden;
        }
        else if (isOrdered || mayBeOrdered)
        {
            result.Set("no");
        }
    }

    // Until it was put on hold an order asked for suction.
    private static void AskHeld(
        long at, in Timeline timeline, Care care, ref bool isOrdered, ref bool mayBeOrdered, ref int unclear, ref Measured result)
    {
        foreach (var held in care.HeldOrders)
        {
            var asked = timeline.Facts[held].EffectiveFrom < at && HeldFrom(timeline, held) >= at;
            isOrdered |= asked && !care.HeldOfUnknownUse.Contains(held);
            mayBeOrdered |= asked && care.HeldOfUnknownUse.Contains(held);
        }

        foreach (var held in care.HeldOrders)
        {
            if (HeldFrom(timeline, held) >= at || isOrdered)
            {
                continue;
            }

            if (mayBeOrdered || care.HeldOfUnknownUse.Contains(held))
            {
                unclear = held;
            }
            else
            {
                Say("yes", held, ref result);
            }
        }

        unclear = result.HasValue ? -1 : unclear;
    }

    private static long HeldFrom(in Timeline timeline, int status)
    {
        ref readonly var order = ref timeline.Facts[status];
        foreach (ref readonly var after in timeline.Of(Concepts.OrderHeldAfter))
        {
            if (after.About == order.About)
            {
                return order.EffectiveFrom + (long)(after.Value.Amount * TimeSpan.TicksPerSecond);
            }
        }

        return order.EffectiveFrom;
    }

    // An order that says so in a form nobody can read may forbid it.
    private static int Forbids(in Timeline timeline, Care care, in OrderSpan order, long at, out bool isClear)
    {
        isClear = true;
        foreach (var index in care.FactsOf(order))
        {
            ref readonly var fact = ref timeline.Facts[index];
            var isOver = fact.EffectiveTo > fact.EffectiveFrom && fact.EffectiveTo <= at;
            if (fact.Concept == Concepts.OrderDoNotSuction && fact.Value.Kind is ValueKind.Yes or ValueKind.Unreadable && fact.EffectiveFrom <= at && !isOver)
            {
                isClear = fact.Value.Kind == ValueKind.Yes;
                return index;
            }
        }

        return -1;
    }

    private static void Say(string code, int fact, ref Measured result)
    {
        result.Uses(fact);
        result.Charted = result.Charted < 0 ? fact : result.Charted;
        result.Set(code);
    }
}
