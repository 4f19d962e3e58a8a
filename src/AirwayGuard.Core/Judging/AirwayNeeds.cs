using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Judging;

/// <summary>
/// Finds the airways that were suctioned or that a catheter was ordered for. An airway is judged once: at the first pass or order
/// at which the diameter in use is not known (an inner cannula may be put in later), else at the first of all.
/// </summary>
internal static class AirwayNeeds
{
    public static void Find(in Timeline timeline, Care care)
    {
        care.AirwayNeedList.Clear();
        care.SuctionedAirwayList.Clear();
        // Once known, a diameter is lost only to an inner cannula, or to a later one that cannot be read.
        var mayBeLost = HasCannula(timeline, care) || HasUnread(timeline);
        for (var airway = 0; airway < care.AirwayList.Count; airway++)
        {
            AirwayNeed? first = null, unknown = null, pass = null;
            foreach (ref readonly var span in care.Passes)
            {
                if (!span.UseUnknown && care.AirwayAt(span.From) == airway)
                {
                    var need = new AirwayNeed(airway, span.From, span.HasEnd ? span.To : span.From, span.OffsetMinutes);
                    unknown ??= (first is null || mayBeLost) && !IsDiameterKnown(timeline, care, need) ? need : null;
                    pass ??= need;
                    first ??= need;
                }
            }

            foreach (ref readonly var order in care.Orders)
            {
                if (!order.UseUnknown && care.IsSinceOrder(airway, order.AuthoredOn) && NamesACatheter(timeline, care, order, care.AirwayList[airway].To, out var named))
                {
                    var at = Math.Max(Math.Max(order.AuthoredOn, named), care.AirwayList[airway].From);
                    var need = new AirwayNeed(airway, at, at, order.OffsetMinutes);
                    first = Earlier(first, need);
                    unknown = IsDiameterKnown(timeline, care, need) ? unknown : Earlier(unknown, need);
                }
            }

            if (pass is { } suctioned)
            {
                care.SuctionedAirwayList.Add(suctioned);
            }

            if ((unknown ?? first) is { } judged)
            {
                care.AirwayNeedList.Add(judged);
            }
        }
    }

    private static bool HasCannula(in Timeline timeline, Care care)
    {
        foreach (var kind in care.DeviceKinds.Values)
        {
            if (kind == Answers.InnerCannula)
            {
                return true;
            }
        }

        return timeline.Of(Concepts.InnerCannulaInPlace).Length > 0 || timeline.Of(Concepts.InnerCannulaDiameter).Length > 0;
    }

    private static bool HasUnread(in Timeline timeline)
    {
        var diameters = timeline.Of(Concepts.TubeInnerDiameter);
        for (var i = 0; i < diameters.Length; i++)
        {
            // Rows of one instant stand together, whichever tube they are about.
            if (InnerDiameter.IsUnread(diameters[i])
                || (i > 0 && diameters[i].EffectiveFrom == diameters[i - 1].EffectiveFrom && TwoDiameters.Differ(diameters[i - 1], diameters[i])))
            {
                return true;
            }
        }

        return false;
    }

    private static AirwayNeed Earlier(AirwayNeed? known, in AirwayNeed other) => known is { } one && one.At <= other.At ? one : other;

    private static bool IsDiameterKnown(in Timeline timeline, Care care, in AirwayNeed need)
    {
        var tried = Measured.Start();
        return TubeDiameter.IsKnown(timeline, care, need.Airway, need.At, ref tried);
    }

    private static bool NamesACatheter(in Timeline timeline, Care care, in OrderSpan order, long until, out long first)
    {
        first = long.MaxValue;
        foreach (var index in care.FactsOf(order))
        {
            ref readonly var fact = ref timeline.Facts[index];
            first = fact.Concept == Concepts.CatheterSize && fact.EffectiveFrom < until ? Math.Min(first, fact.EffectiveFrom) : first;
        }

        return first != long.MaxValue;
    }
}
