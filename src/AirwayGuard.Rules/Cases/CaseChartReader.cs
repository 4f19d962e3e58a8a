using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>Reads the devices, rows and orders of a case.</summary>
internal sealed class CaseChartReader(Faults faults)
{
    private static readonly ImmutableArray<string> Inputs = [.. Concepts.Table.ToArray().Where(info => info.IsInput).Select(info => info.Code)];
    private static readonly ImmutableArray<string> RowKeys = ["at", "until", "device", "of", "uses", "under", .. Inputs];
    private static readonly ImmutableArray<string> ThingKeys = ["id", "kind", "stands-at", "used-from", "used-until", .. Inputs];
    private static readonly ImmutableArray<string> OrderKeys =
    [
        "order", "at", "status", "replaces", "order-interval", "order-as-needed", "order-by-clock", "order-vacuum-low", "order-vacuum-high",
        "order-do-not-suction", "order-unread", "catheter-size", "insertion-depth", "suction-system", "depth-technique", "saline-instilled",
        "preoxygenation", "allowance-reason", "regulator-mode",
    ];

    private readonly HashSet<string> _things = new(StringComparer.Ordinal);
    private readonly HashSet<string> _orders = new(StringComparer.Ordinal);

    public ImmutableArray<CaseThing> Things(Keys keys)
    {
        if (keys.Find("things") is not { } entry)
        {
            return [];
        }

        return [.. keys.Items(entry.Value, "things").Select(Thing).OfType<CaseThing>()];
    }

    /// <summary>Reads <c>chart</c> behind <see cref="Things"/>, whose ids its rows may name.</summary>
    public (ImmutableArray<CaseRow> Rows, ImmutableArray<CaseOrder> Orders) Chart(Keys keys)
    {
        var (rows, orders) = (ImmutableArray.CreateBuilder<CaseRow>(), ImmutableArray.CreateBuilder<CaseOrder>());
        foreach (var item in keys.Required("chart", "A case") is { } node ? keys.Items(node, "chart") : [])
        {
            if (item is MapNode map && map.Entries.Any(static entry => entry.Key == "order"))
            {
                if (Order(map) is { } order)
                {
                    orders.Add(order);
                }
            }
            else if (Row(item) is { } row)
            {
                rows.Add(row);
            }
        }

        return (rows.ToImmutable(), orders.ToImmutable());
    }

    private CaseThing? Thing(Node node)
    {
        if (Keys.Of(node, faults, "A thing", ThingKeys) is not { } keys
            || !keys.TryRequiredText("id", "A thing", out var id) || !keys.TryRequiredText("kind", "A thing", out var kind))
        {
            return null;
        }

        if (!_things.Add(id.Text))
        {
            faults.Add(Codes.CaseNameDoubled, id.At, $"Another thing has the id {Words.Quote(id.Text)}.");
        }

        if (!Answers.TryFind(Concepts.DeviceKind, kind.Text, out var answer))
        {
            var known = Concepts.Info(Concepts.DeviceKind).Answers;
            faults.Add(Codes.CaseWordUnknown, kind.At, $"The kind is {Words.Quote(kind.Text)}.{Words.DidYouMean(kind.Text, known)}", Words.Listed(known));
            return null;
        }

        return new CaseThing(
            id.Text, answer, keys.TryText("stands-at", out var place) ? place.Text : "", Time(keys, "used-from"), Time(keys, "used-until"), Values(node, Inputs));
    }

    private CaseRow? Row(Node node)
    {
        if (Keys.Of(node, faults, "A row", RowKeys) is not { } keys || RequiredTime(keys, "A row") is not { } from)
        {
            return null;
        }

        var until = Time(keys, "until") ?? from;
        if (until < from)
        {
            faults.Add(Codes.CaseTimeUnreadable, keys.Find("until")!.Value.At, "until is earlier than at.");
        }

        var values = Values(node, Inputs);
        if (values.IsEmpty && !((MapNode)node).Entries.Any(entry => Inputs.Contains(entry.Key, StringComparer.Ordinal)))
        {
            faults.Add(Codes.RuleSetKeyMissing, node.At, "The row charts nothing.", "Add a concept with its value, such as vacuum-pressure: 120 mmHg.");
        }

        var uses = keys.Find("uses") is { } entry ? keys.Items(entry.Value, "uses").Select(ThingNamed).ToImmutableArray() : [];
        var row = new CaseRow(from, until, ThingNamed(keys, "device"), ThingNamed(keys, "of"), uses, OrderNamed(keys, "under"), values);
        if (row.IsProcedure && !values.Any(static value => value.Concept == Concepts.SuctionPass && value.Value.Kind == ValueKind.Yes))
        {
            faults.Add(Codes.RuleSetKeyMissing, node.At, "What uses a device or is done by an order is no pass.", "Add suction-pass: yes.");
        }

        return row;
    }

    private CaseOrder? Order(MapNode node)
    {
        if (Keys.Of(node, faults, "An order", OrderKeys) is not { } keys
            || !keys.TryRequiredText("order", "An order", out var id) || RequiredTime(keys, "An order") is not { } authored)
        {
            return null;
        }

        var replaces = OrderNamed(keys, "replaces");
        if (!_orders.Add(id.Text))
        {
            faults.Add(Codes.CaseNameDoubled, id.At, $"Another order is called {Words.Quote(id.Text)}.");
        }

        var status = keys.TryText("status", out var word) ? word : new TextNode(keys.At, "active");
        if (!Answers.TryFind(Concepts.OrderStatus, status.Text, out var answer))
        {
            var known = Concepts.Info(Concepts.OrderStatus).Answers;
            faults.Add(Codes.CaseWordUnknown, status.At, $"The status is {Words.Quote(status.Text)}.{Words.DidYouMean(status.Text, known)}", Words.Listed(known));
            return null;
        }

        return new CaseOrder(id.Text, authored, answer, replaces, Values(node, OrderKeys));
    }

    private ImmutableArray<CaseValue> Values(Node node, ImmutableArray<string> among)
    {
        var values = ImmutableArray.CreateBuilder<CaseValue>();
        foreach (var entry in ((MapNode)node).Entries)
        {
            if (among.Contains(entry.Key, StringComparer.Ordinal) && Concepts.TryFind(entry.Key, out var concept) && CaseValueReader.Read(concept, entry.Value, faults) is { } value)
            {
                values.Add(new CaseValue(concept, value));
            }
        }

        return values.ToImmutable();
    }

    private string OrderNamed(Keys keys, string key)
    {
        if (!keys.TryText(key, out var name))
        {
            return "";
        }

        if (!_orders.Contains(name.Text))
        {
            faults.Add(Codes.CaseNameUnknown, name.At, $"No order before this is called {Words.Quote(name.Text)}.{Words.DidYouMean(name.Text, _orders)}");
        }

        return name.Text;
    }

    private string ThingNamed(Keys keys, string key) => keys.TryText(key, out var name) ? ThingNamed(name) : "";

    private string ThingNamed(Node node)
    {
        if (node is not TextNode name)
        {
            faults.Add(Codes.RuleSetShapeWrong, node.At, $"The name of a thing is {node.Shape}.", "Write the id of a thing.");
            return "";
        }

        if (!_things.Contains(name.Text))
        {
            faults.Add(Codes.CaseNameUnknown, name.At, $"No thing is called {Words.Quote(name.Text)}.{Words.DidYouMean(name.Text, _things)}");
        }

        return name.Text;
    }

    private long? RequiredTime(Keys keys, string what) =>
        keys.Required("at", what) is null ? null : Time(keys, "at");

    private long? Time(Keys keys, string key)
    {
        if (!keys.TryText(key, out var text))
        {
            return null;
        }

        if (CaseTime.TryRead(text.Text, out var ticks))
        {
            return ticks;
        }

        faults.Add(Codes.CaseTimeUnreadable, text.At, $"{key} is {Words.Quote(text.Text)}.", CaseTime.Example);
        return null;
    }
}
