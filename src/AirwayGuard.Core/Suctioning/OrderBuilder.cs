using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Orders that are judged: active, with an intent to act, with the device requests tied to them by basedOn or a shared group.
/// </summary>
internal static class OrderBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var (intents, basedOn, groups) = (new Dictionary<Entity, int>(), new Dictionary<Entity, Entity>(), new Dictionary<Entity, Entity>());
        foreach (ref readonly var fact in timeline.Of(Concepts.OrderIntent))
        {
            intents[fact.About] = fact.Value.Symbol;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.BasedOn && link.From.Kind == EntityKind.Order)
            {
                basedOn.TryAdd(link.From, link.To);
            }
            else if (link.Kind == LinkKind.GroupedBy)
            {
                groups.TryAdd(link.From, link.To);
            }
        }

        var judged = new List<Fact>();
        foreach (ref readonly var fact in timeline.Of(Concepts.OrderStatus))
        {
            if (fact.Value.Symbol == Answers.Active && intents.TryGetValue(fact.About, out var intent) && intent != Answers.Proposal)
            {
                judged.Add(fact);
            }
        }

        judged.Sort((x, y) => x.EffectiveFrom != y.EffectiveFrom
            ? x.EffectiveFrom.CompareTo(y.EffectiveFrom)
            : string.CompareOrdinal(names.NameOf(x.About), names.NameOf(y.About)));
        var owner = Owners(judged, basedOn, groups, names);
        foreach (var order in judged)
        {
            if (owner[order.About] == order.About)
            {
                Add(timeline, care, order, owner, IsService(names, order.About));
            }
        }
    }

    // Each order's facts belong to itself, or for a device request to the service request it is tied to.
    private static Dictionary<Entity, Entity> Owners(
        List<Fact> judged, Dictionary<Entity, Entity> basedOn, Dictionary<Entity, Entity> groups, IEntityNames names)
    {
        var services = judged.Select(fact => fact.About).Where(order => IsService(names, order)).ToHashSet();
        var owner = new Dictionary<Entity, Entity>();
        foreach (var fact in judged)
        {
            var order = fact.About;
            owner[order] = order;
            if (services.Contains(order))
            {
                continue;
            }

            if (basedOn.TryGetValue(order, out var parent) && services.Contains(parent))
            {
                owner[order] = parent;
            }
            else if (groups.TryGetValue(order, out var group))
            {
                foreach (var service in services)
                {
                    if (groups.TryGetValue(service, out var shared) && shared == group)
                    {
                        owner[order] = service;
                    }
                }
            }
        }

        return owner;
    }

    private static bool IsService(IEntityNames names, Entity order) => names.NameOf(order).StartsWith("ServiceRequest/", StringComparison.Ordinal);

    private static void Add(in Timeline timeline, Care care, in Fact order, Dictionary<Entity, Entity> owner, bool isService)
    {
        var first = care.OrderFactList.Count;
        for (var i = 0; i < timeline.Facts.Length; i++)
        {
            ref readonly var fact = ref timeline.Facts[i];
            if (fact.About.Kind == EntityKind.Order && owner.TryGetValue(fact.About, out var whose) && whose == order.About)
            {
                care.OrderFactList.Add(i);
            }
        }

        care.OrderList.Add(new OrderSpan(order.About, order.EffectiveFrom, order.OffsetMinutes, first, care.OrderFactList.Count - first, isService));
    }
}
