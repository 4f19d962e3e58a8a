using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Finds the airways that were suctioned or that a catheter was ordered for, with the first time that was so.</summary>
internal static class AirwayNeeds
{
    public static void Find(in Timeline timeline, Care care)
    {
        for (var airway = 0; airway < care.AirwayList.Count; airway++)
        {
            var (at, offset) = FirstPass(care, airway);
            foreach (ref readonly var order in care.Orders)
            {
                var when = Math.Max(order.AuthoredOn, care.AirwayList[airway].From);
                if (when < at && care.AirwayOfOrder(order.AuthoredOn) == airway && NamesACatheter(timeline, care, order))
                {
                    (at, offset) = (when, order.OffsetMinutes);
                }
            }

            if (at != long.MaxValue)
            {
                care.AirwayNeedList.Add(new AirwayNeed(airway, at, offset));
            }
        }
    }

    private static (long At, short Offset) FirstPass(Care care, int airway)
    {
        foreach (ref readonly var pass in care.Passes)
        {
            if (care.AirwayAt(pass.From) == airway)
            {
                return (pass.From, pass.OffsetMinutes);
            }
        }

        return (long.MaxValue, 0);
    }

    private static bool NamesACatheter(in Timeline timeline, Care care, in OrderSpan order)
    {
        foreach (var index in care.OrderFacts.Slice(order.FirstFact, order.FactCount))
        {
            if (timeline.Facts[index].Concept == Concepts.CatheterSize)
            {
                return true;
            }
        }

        return false;
    }
}
