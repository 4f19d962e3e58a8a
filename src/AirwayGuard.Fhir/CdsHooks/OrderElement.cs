using System.Globalization;
using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>One item of a list of an order, with the places of what may be changed in it.</summary>
/// <param name="order">The whole order.</param>
/// <param name="whole">Where the item stands in it.</param>
internal readonly struct OrderElement(ReadOnlyMemory<byte> order, Range whole)
{
    public Range Whole => whole;

    /// <summary>Null where the order is of another type, the list has no such item, or the order is no JSON with each member once.</summary>
    public static OrderElement? Find(ReadOnlyMemory<byte> order, string type, string list, int index)
    {
        if (order.Span is not [(byte)'{', ..])
        {
            // Places are counted from the first byte.
            return null;
        }

        Range? found = null;
        var isOfType = false;
        var fault = JsonBody.Read(order, (ref JsonCursor cursor) =>
        {
            var names = new MemberNames();
            while (cursor.NextMember(ref names))
            {
                var name = cursor.Name;
                cursor.Read();
                if (name == "resourceType")
                {
                    isOfType = cursor.TakeText().Text == type;
                }
                else if (name == list && cursor.IsArray)
                {
                    found = ItemAt(ref cursor, index);
                }
                else
                {
                    cursor.Skip();
                }
            }
        });
        return fault is null && isOfType && found is { } item ? new OrderElement(order, item) : null;
    }

    /// <summary>Where the number of the quantity stands; null also where it bounds from below.</summary>
    public Range? Quantity() => OnlyValue("valueQuantity") is { } quantity ? NumberOf(quantity) : null;

    /// <summary>Where the number of the upper end stands; null also where the lower end is above the new one.</summary>
    public Range? RangeHigh(decimal value)
    {
        if (OnlyValue("valueRange") is not { } range)
        {
            return null;
        }

        var members = MembersOf(range);
        return members.TryGetValue("high", out var high) && NumberOf(high) is { } number && !IsAbove(members, value) ? number : null;
    }

    public Range? Boolean() => OnlyValue("valueBoolean") is { } truth && order.Span[truth][0] is (byte)'t' or (byte)'f' ? truth : null;

    public Range? Concept() => OnlyValue("valueCodeableConcept");

    private static Range? ItemAt(ref JsonCursor cursor, int index)
    {
        Range? found = null;
        for (var i = 0; cursor.NextItem(); i++)
        {
            var (start, isObject) = (cursor.Start, cursor.IsObject);
            cursor.Skip();
            found = i == index && isObject ? start..cursor.End : found;
        }

        return found;
    }

    // A value under a modifier extension may mean the contrary, of two values nobody knows which holds, and an extension of a
    // primitive value speaks of the old one.
    private Range? OnlyValue(string name)
    {
        var members = MembersOf(whole);
        var isPlain = !members.ContainsKey("modifierExtension") && members.Keys.Count(IsValue) == 1 && !(members.TryGetValue("code", out var code) && TellsNumber(code));
        return isPlain && members.TryGetValue(name, out var value) ? value : null;
    }

    // A label that tells the old value in words, such as Vacuum 200 mmHg, would contradict the new one.
    private bool TellsNumber(Range code)
    {
        var json = new Utf8JsonReader(order.Span[code]);
        while (json.Read())
        {
            if (json.TokenType == JsonTokenType.PropertyName && (json.ValueTextEquals("text"u8) || json.ValueTextEquals("display"u8))
                && json.Read() && json.TokenType == JsonTokenType.String && json.ValueSpan.IndexOfAnyInRange((byte)'0', (byte)'9') >= 0)
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsValue(string name) => name.TrimStart('_').StartsWith("value", StringComparison.Ordinal);

    private Range? NumberOf(Range quantity)
    {
        var members = MembersOf(quantity);
        if (!members.TryGetValue("value", out var value) || members.ContainsKey("_value") || order.Span[value][0] is not ((byte)'-' or (>= (byte)'0' and <= (byte)'9')))
        {
            return null;
        }

        return members.TryGetValue("comparator", out var comparator) && !order.Span[comparator].StartsWith("\"<"u8) ? null : value;
    }

    private bool IsAbove(Dictionary<string, Range> range, decimal value) =>
        range.TryGetValue("low", out var low) && NumberOf(low) is { } number
        && (!decimal.TryParse(order.Span[number], NumberStyles.Float, CultureInfo.InvariantCulture, out var least) || least > value);

    /// <summary>Where the value of each member stands in the order; empty where there is no object.</summary>
    private Dictionary<string, Range> MembersOf(Range place)
    {
        var members = new Dictionary<string, Range>(StringComparer.Ordinal);
        var cursor = new JsonCursor(order[place]);
        cursor.Read();
        if (!cursor.IsObject)
        {
            return members;
        }

        var from = place.Start.Value;
        var names = new MemberNames();
        while (cursor.NextMember(ref names))
        {
            var name = cursor.Name;
            cursor.Read();
            var start = cursor.Start;
            cursor.Skip();
            members[name] = (from + start)..(from + cursor.End);
        }

        return members;
    }
}
