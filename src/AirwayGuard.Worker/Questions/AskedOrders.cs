using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Worker.Questions;

/// <summary>One resource of <c>draftOrders</c>, as it reads once signed.</summary>
/// <param name="Row">None where it could not be read at all.</param>
/// <param name="IsSuction">It orders suction of the airway, or equipment for it.</param>
internal sealed record AskedOrder(HookResource Draft, ReadArrival Read, Entity Row, bool IsSuction)
{
    /// <summary>An order that says things which kept it from being read: nobody can tell whether it is one of suction.</summary>
    public bool IsUnread => !Read.Reading.Readable && Draft.Type is "ServiceRequest" or "DeviceRequest";

    /// <summary>Says its type only.</summary>
    public override string ToString() => $"AskedOrder({Draft.Type})";
}

/// <summary>Reads drafts.</summary>
internal static class AskedOrders
{
    public static List<AskedOrder> Of(HookRequest request, IArrivalReader reader, IEntityInterner entities, string server, DateTimeOffset now)
    {
        var orders = new List<AskedOrder>(request.Drafts.Length);
        foreach (var draft in request.Drafts)
        {
            orders.Add(Read(draft, QuestionArrivals.OfDraft(draft, server, request.PatientId, orders.Count + 1, now), reader, entities));
        }

        return orders;
    }

    public static AskedOrder Read(HookResource draft, Arrival arrival, IArrivalReader reader, IEntityInterner entities)
    {
        var reading = new Core.Ports.Reading();
        reader.Read(arrival, entities, reading);
        return new AskedOrder(draft, new ReadArrival(arrival, reading), reading.Self, reading.Facts.Exists(static fact => fact.Concept == Concepts.OrderStatus));
    }

    /// <summary>What the person chose, of all that is drafted. A choice that names none of the drafts may mean any of them.</summary>
    public static HashSet<Entity> Meant(HookRequest request, IReadOnlyList<AskedOrder> orders)
    {
        var named = orders.Select(static order => $"{order.Draft.Type}/{order.Draft.Id}").ToHashSet(StringComparer.Ordinal);
        var isAll = request.Selections.IsEmpty || !request.Selections.All(named.Contains);
        return [.. orders.Where(order => !order.Row.IsNone && (isAll || request.Selections.Contains($"{order.Draft.Type}/{order.Draft.Id}", StringComparer.Ordinal))).Select(static order => order.Row)];
    }
}
