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
    private static readonly Concept[] Compared =
    [
        Concepts.OrderVacuumHigh, Concepts.CatheterSize, Concepts.SuctionSystem, Concepts.DepthTechnique, Concepts.InsertionDepth, Concepts.SalineInstilled,
        Concepts.Preoxygenation, Concepts.OrderInterval, Concepts.OrderByClock, Concepts.OrderAsNeeded,
    ];

    public static readonly Measure Measure = new(
        "order-reading", Dimension.Code, Unit.None, [SubjectKind.Order],
        [Concepts.OrderUnread, Concepts.SuctionUse, Concepts.RegulatorMode, Concepts.OrderUnderCondition, .. Compared],
        TimeSpan.Zero, TimeSpan.Zero, ["read", "unread", "nothing-read", "full-line", "intermittent", "values-differ"], MayBeMissing: false,
        "whether everything an order says was read",
        Take)
    {
        ShowsNoValue = true,
        AsksOfCharting = true,
    };

    private static readonly Concept[] Used =
    [
        .. Compared, Concepts.OrderVacuumLow, Concepts.Fio2, Concepts.AllowanceReason, Concepts.SecretionConsistency, Concepts.RegulatorMode, Concepts.SuctionUse,
        Concepts.OrderDoNotSuction, Concepts.OrderUnderCondition,
    ];

    /// <summary>Whether a check of orders asks for it; what none asks for is not used, though it can be read.</summary>
    public static bool IsUsed(Concept concept) => Array.IndexOf(Used, concept) >= 0;

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var isAnyRead = false;
        var (unread, bypass) = (-1, 0);
        var differing = -1;
        Span<int> first = stackalloc int[Compared.Length];
        first.Fill(-1);
        foreach (var index in care.AllFactsOf(care.Orders[subject.Index]))
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
                differing = Differs(timeline, index, first) ? index : differing;
                // That suction of the airway is meant says nothing beyond the order.
                isAnyRead |= IsUsed(fact.Concept) && fact.Concept != Concepts.SuctionUse;
            }
        }

        if (differing >= 0)
        {
            result.Uses(differing);
        }

        result.Charted = unread >= 0 ? unread : differing;
        result.Set(bypass > 0 ? Answers.Code(bypass) : differing >= 0 ? "values-differ" : unread >= 0 ? "unread" : isAnyRead ? "read" : "nothing-read");
    }

    // Of one concept, what the first says is what the others are held against; an amount says more than a yes.
    private static bool Differs(in Timeline timeline, int index, Span<int> first)
    {
        ref readonly var fact = ref timeline.Facts[index];
        var concept = Array.IndexOf(Compared, MeantBy(fact));
        if (concept < 0)
        {
            return false;
        }

        if (first[concept] < 0)
        {
            first[concept] = index;
            return false;
        }

        ref readonly var known = ref timeline.Facts[first[concept]];
        var differs = OrderContradiction.Differ(known.Value, fact.Value, Compared[concept]) && !AreTwoOrders(fact.Id, known.Id);
        first[concept] = !differs && fact.Value.IsNumber && !known.Value.IsNumber ? index : first[concept];
        return differs;
    }

    private static Concept MeantBy(in Fact fact) => fact.Concept != Concepts.OrderUnderCondition ? fact.Concept
        : fact.Value.Kind == ValueKind.Code ? Concepts.DepthTechnique : Concepts.SalineInstilled;

    // Two orders in one text may well ask for different things.
    private static bool AreTwoOrders(FactId one, FactId other) =>
        one.Arrival == other.Arrival && TextOrdinal.PartOf(one.Ordinal) is >= 0 and var part && TextOrdinal.PartOf(other.Ordinal) is >= 0 and var otherPart && part != otherPart;
}
