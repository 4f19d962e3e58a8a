using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Orders that are judged: active, with an intent to act, with the device requests tied to them by basedOn or a shared group. One that
/// says that another suction than the airway's is meant is no order here, active or on hold.
/// </summary>
internal static class OrderBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var work = care.OrderWork;
        work.Clear();
        ReadTies(timeline, names, work);
        OrdersOfOthers.Tell(timeline, names, care);
        SuctionUse.ReadOrders(timeline, work.Uses);
        FindHeld(timeline, names, care);
        foreach (ref readonly var fact in timeline.Of(Concepts.OrderStatus))
        {
            if (fact.Value.Symbol != Answers.OnHold)
            {
                work.Keeping.Remove(fact.About);
            }

            if (fact.Value.Symbol == Answers.Active && work.Intents.TryGetValue(fact.About, out var intent) && intent != Answers.Proposal)
            {
                work.Judged.Add(fact);
            }
        }

        work.Judged.Sort((x, y) => x.EffectiveFrom != y.EffectiveFrom
            ? x.EffectiveFrom.CompareTo(y.EffectiveFrom)
            : string.CompareOrdinal(names.NameOf(x.About), names.NameOf(y.About)));
        FindOwners(timeline, work, names);
        foreach (ref readonly var order in CollectionsMarshal.AsSpan(work.Judged))
        {
            if (work.Owners.TryGetValue(order.About, out var owner) && owner == order.About
                && work.UseOf(order.About) is var use && !SuctionUse.IsOther(use))
            {
                Add(timeline, care, order, work.Owners, work.Services.Contains(order.About), use < 0);
            }
        }
    }

    private static void ReadTies(in Timeline timeline, IEntityNames names, OrderWork work)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.OrderIntent))
        {
            work.Intents[fact.About] = fact.Value.Symbol;
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.OrderFor && link.To == timeline.Patient && IsService(names, link.From))
            {
                work.Keeping.Add(link.From);
            }
            else if (link.Kind == LinkKind.GroupedBy)
            {
                work.Groups.TryAdd(link.From, link.To);
            }
        }
    }

    // A prohibition on hold forbids nothing, and asks for nothing either; of one that may be a prohibition nobody knows what it asked for.
    private static void FindHeld(in Timeline timeline, IEntityNames names, Care care)
    {
        var statuses = timeline.Of(Concepts.OrderStatus);
        for (var i = 0; i < statuses.Length; i++)
        {
            if (statuses[i].Value.Symbol == Answers.OnHold && care.OrderWork.Intents.TryGetValue(statuses[i].About, out var intent)
                && intent != Answers.Proposal && IsService(names, statuses[i].About) && !Forbids(timeline, statuses[i].About)
                && UseOfHeld(timeline, care.OrderWork, statuses[i].About) is var use && !SuctionUse.IsOther(use))
            {
                care.HeldOrderList.Add(timeline.FirstOf(Concepts.OrderStatus) + i);
                if (use < 0)
                {
                    care.HeldOfUnknownUse.Add(timeline.FirstOf(Concepts.OrderStatus) + i);
                }
            }
        }
    }

    // Of an order on hold no owners are found: its requests may be on hold with it.
    private static int UseOfHeld(in Timeline timeline, OrderWork work, Entity order)
    {
        var use = work.Uses.GetValueOrDefault(order);
        foreach (ref readonly var link in timeline.Links)
        {
            var isPart = link.Kind == LinkKind.BasedOn ? link.To == order
                : link.Kind == LinkKind.GroupedBy && link.From != order && work.Groups.TryGetValue(order, out var group) && group == link.To;
            use = isPart ? SuctionUse.Together(use, work.Uses.GetValueOrDefault(link.From)) : use;
        }

        return use;
    }

    private static bool Forbids(in Timeline timeline, Entity order)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.OrderDoNotSuction))
        {
            if (fact.About == order && fact.Value.Kind is ValueKind.Yes or ValueKind.Unreadable)
            {
                return true;
            }
        }

        return false;
    }

    // Each order's facts belong to itself, or for a device request to the service request it is tied to.
    private static void FindOwners(in Timeline timeline, OrderWork work, IEntityNames names)
    {
        foreach (ref readonly var fact in CollectionsMarshal.AsSpan(work.Judged))
        {
            work.Owners[fact.About] = fact.About;
            if (IsService(names, fact.About))
            {
                work.Services.Add(fact.About);
                if (Forbids(timeline, fact.About))
                {
                    work.Forbidding.Add(fact.About);
                }
            }
        }

        foreach (ref readonly var fact in CollectionsMarshal.AsSpan(work.Judged))
        {
            var order = fact.About;
            if (work.Services.Contains(order))
            {
                continue;
            }

            if (!TryOwner(timeline, work, order, out var owner))
            {
                work.Owners.Remove(order);
            }
            else if (!owner.IsNone)
            {
                work.Owners[order] = owner;
            }
        }
    }

    // The service request a device request is part of, none where none is known; false where that one keeps it from being judged. What an order
    // is based on says more than the group it shares; of several one that asks for suction goes before one that forbids it.
    private static bool TryOwner(in Timeline timeline, OrderWork work, Entity order, out Entity owner)
    {
        owner = default;
        var isKept = false;
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.BasedOn && link.From == order)
            {
                owner = work.Services.Contains(link.To) ? Better(work, owner, link.To) : owner;
                isKept |= work.Keeping.Contains(link.To);
            }
        }

        if (!owner.IsNone || isKept || !work.Groups.TryGetValue(order, out var group))
        {
            return !owner.IsNone || !isKept;
        }

        foreach (ref readonly var service in CollectionsMarshal.AsSpan(work.Judged))
        {
            if (work.Services.Contains(service.About) && work.Groups.TryGetValue(service.About, out var shared) && shared == group)
            {
                owner = Better(work, owner, service.About);
            }
        }

        foreach (var service in work.Keeping)
        {
            isKept |= work.Groups.TryGetValue(service, out var shared) && shared == group;
        }

        return !owner.IsNone || !isKept;
    }

    private static Entity Better(OrderWork work, Entity known, Entity other) =>
        known.IsNone || (work.Forbidding.Contains(known) && !work.Forbidding.Contains(other)) ? other : known;

    private static bool IsService(IEntityNames names, Entity order) => names.NameOf(order).StartsWith("ServiceRequest/", StringComparison.Ordinal);

    private static void Add(in Timeline timeline, Care care, in Fact order, Dictionary<Entity, Entity> owner, bool isService, bool useUnknown)
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

        var count = care.OrderFactList.Count - first;
        var apart = OrderContradiction.PutApart(timeline, CollectionsMarshal.AsSpan(care.OrderFactList).Slice(first, count));
        care.OrderList.Add(new OrderSpan(order.About, order.EffectiveFrom, order.OffsetMinutes, first, count - apart, isService, useUnknown) { OverruledCount = apart });
    }
}
