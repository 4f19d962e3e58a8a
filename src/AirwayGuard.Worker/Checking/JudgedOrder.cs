using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Checking;

/// <summary>An order that was judged, and where it and the device requests tied to it stand in the chart.</summary>
internal sealed record JudgedOrder(Entity Order, long AuthoredOn, ImmutableArray<(Entity Row, Position Arrival)> Resources)
{
    public static JudgedOrder Of(in Timeline timeline, Care care, in OrderSpan order)
    {
        var resources = new List<(Entity, Position)>();
        foreach (var index in care.OrderFacts.Slice(order.FirstFact, order.FactCount))
        {
            ref readonly var fact = ref timeline.Facts[index];
            if (!resources.Contains((fact.About, fact.Id.Arrival)))
            {
                resources.Add((fact.About, fact.Id.Arrival));
            }
        }

        return new JudgedOrder(order.Identity, order.AuthoredOn, [.. resources]);
    }
}
