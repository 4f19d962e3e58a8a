using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Worker.Questions;

/// <summary>One resource of <c>draftOrders</c>, as it reads once signed.</summary>
/// <param name="Row">None where it could not be read at all.</param>
/// <param name="IsSuction">It orders suction of the airway, or equipment for it.</param>
internal sealed record AskedOrder(HookResource Draft, ReadArrival Read, Entity Row, bool IsSuction)
{
    /// <summary>
    /// An order of which nobody can tell whether it is to be judged: it could not be read, or it is one of suction and something in it keeps it from being
    /// judged that is no plain end of it.
    /// </summary>
    public bool IsUnread => (Draft.Type is "ServiceRequest" or "DeviceRequest" || IsOfNoType) && Read.Reading.Problems.Count > 0 && !IsJudged && !HasEnded;

    /// <summary>It is an order for somebody else, or nobody can tell for whom.</summary>
    public bool IsOfAnotherThan(Entity patient) => IsSuction && Read.Reading.Links.Exists(link => link.Kind == LinkKind.OrderFor && link.To != patient);

    // Its type is none of R4: a misspelt order among others.
    private bool IsOfNoType => Read.Reading.Problems.Exists(static problem => problem.Code == Codes.UnknownResourceType);

    private bool IsJudged => Says(Concepts.OrderStatus, Answers.Active) && !Says(Concepts.OrderIntent, Answers.Proposal);

    private bool HasEnded => Read.Reading.Problems.Exists(static problem => problem.Code == Codes.EnteredInError) || Read.Reading.Facts.Exists(static fact => fact.Concept == Concepts.OrderStatus && Ends.Contains(fact.Value.Symbol));

    private static readonly HashSet<int> Ends = [Answers.OnHold, Answers.Of("revoked"), Answers.Of("completed")];

    private bool Says(Concept concept, int answer) => Read.Reading.Facts.Exists(fact => fact.Concept == concept && fact.Value.Symbol == answer);

    /// <summary>Says its type only.</summary>
    public override string ToString() => $"AskedOrder({Draft.Type})";
}

/// <summary>Reads drafts.</summary>
internal static class AskedOrders
{
    /// <summary>The first draft that bears the name of one before it: a Bundle of drafts holds no versions, and one of the two would not be judged.</summary>
    public static HookFault? Twice(HookRequest request)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var draft in request.Drafts)
        {
            if (draft.Id is { } id && !seen.Add($"{draft.Type}/{id}"))
            {
                return new HookFault(Codes.HookDraftsUnusable, draft.Where + ".id", "Another draft of this type has the same id.", 400);
            }
        }

        return null;
    }

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
        if (reading.Facts.Count == 0 && reading.Problems.Count == 0 && OrderNaming.IsOfAWrongForm(draft.Body, draft.Type))
        {
            reading.Problems.Add(new Problem(Codes.Unreadable, draft.Where, "What names the order has a form that R4 does not have."));
        }

        return new AskedOrder(draft, new ReadArrival(arrival, reading), reading.Self, reading.Facts.Exists(static fact => fact.Concept == Concepts.OrderStatus));
    }

    /// <summary>What the person chose, of all that is drafted. A choice that names none of the drafts may mean any of them.</summary>
    public static HashSet<Entity> Meant(HookRequest request, IReadOnlyList<AskedOrder> orders)
    {
        if (request.Selections.IsEmpty)
        {
            return [.. orders.Where(static order => !order.Row.IsNone).Select(static order => order.Row)];
        }

        var named = orders.Select(static order => $"{order.Draft.Type}/{order.Draft.Id}").ToHashSet(StringComparer.Ordinal);
        var isAll = !request.Selections.All(named.Contains);
        return [.. orders.Where(order => !order.Row.IsNone && (isAll || request.Selections.Contains($"{order.Draft.Type}/{order.Draft.Id}", StringComparer.Ordinal))).Select(static order => order.Row)];
    }
}
