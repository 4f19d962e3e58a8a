using System.Text;

namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Changes JSON value by value: types swapped, members doubled, dropped and moved, edges put in, parts of another input taken.</summary>
internal static class JsonMutator
{
    /// <summary>One to four changes, and now and then bytes broken besides.</summary>
    public static byte[] Mutate(IReadOnlyList<JsonInput> inputs, Dice dice)
    {
        var input = dice.OneOf(inputs);
        var (bytes, parts) = (input.Bytes, input.Parts);
        var changes = dice.Next(10) switch { 0 => 0, < 7 => 1, < 9 => 2, _ => 4 };
        for (var i = 0; i < changes && parts.Count > 0; i++)
        {
            bytes = Change(bytes, parts, inputs, dice);
            parts = i + 1 < changes ? JsonParts.Of(bytes) : parts;
        }

        return changes == 0 || dice.Once(12) ? ByteMutator.Mutate(bytes, dice) : bytes;
    }

    private static byte[] Change(byte[] bytes, List<JsonPart> parts, IReadOnlyList<JsonInput> others, Dice dice)
    {
        var part = parts[dice.Next(parts.Count)];
        var value = bytes.AsSpan(part.Value, part.To - part.Value);
        switch (dice.Next(13))
        {
            case 0:
                return Put(bytes, part.Value, part.To, Edges.Value(dice));
            case 1:
                return Put(bytes, part.Value, part.To, Near(value, dice));
            case 2:
                return Put(bytes, part.To, part.To, "," + Encoding.UTF8.GetString(bytes, part.From, part.To - part.From));
            case 3 when part.IsMember:
                return Put(bytes, part.To, part.To, "," + Encoding.UTF8.GetString(bytes, part.From, part.Value - part.From) + Edges.Value(dice));
            case 4:
                return Drop(bytes, part);
            case 5:
                return Swap(bytes, part, parts[dice.Next(parts.Count)]);
            case 6:
                return Swap(bytes, part, Sibling(parts, part, dice));
            case 7:
                var other = dice.OneOf(others);
                var taken = other.Parts.Count == 0 ? default : other.Parts[dice.Next(other.Parts.Count)];
                return Put(bytes, part.Value, part.To, Encoding.UTF8.GetString(other.Bytes, taken.Value, taken.To - taken.Value));
            case 8 when dice.Once(3):
                return Put(bytes, part.Value, part.To, Edges.Deep(dice, Encoding.UTF8.GetString(value)));
            case 9 when part.IsMember:
                return Rename(bytes, part, dice);
            case 10:
                // A null among the elements of a list is an element of a wrong form.
                return value[0] == '[' ? Put(bytes, part.Value + 1, part.Value + 1, value.Length > 2 ? "null," : "null") : Put(bytes, part.Value, part.To, "null");
            case 11:
                return Put(bytes, part.Value, part.To, "[" + Encoding.UTF8.GetString(value) + "]");
            default:
                return Put(bytes, part.Value, part.To, Near(value, dice));
        }
    }

    /// <summary>An edge of the same type, and of a date where a date stands.</summary>
    private static string Near(ReadOnlySpan<byte> value, Dice dice) => value[0] switch
    {
        (byte)'"' when value.Length >= 6 && value[1] is >= (byte)'0' and <= (byte)'9' && !dice.Once(4) => "\"" + dice.OneOf(Edges.Dates) + "\"",
        (byte)'"' => Edges.Text(dice),
        (byte)'{' or (byte)'[' => Edges.Value(dice),
        (byte)'t' => "false",
        (byte)'f' => "true",
        (byte)'n' => "{}",
        _ => dice.OneOf(Edges.Numbers),
    };

    private static JsonPart Sibling(List<JsonPart> parts, JsonPart part, Dice dice)
    {
        var siblings = parts.FindAll(one => one.Parent == part.Parent);
        return siblings[dice.Next(siblings.Count)];
    }

    private static byte[] Drop(byte[] bytes, JsonPart part)
    {
        var (from, to) = (part.From, part.To);
        var after = to + bytes.AsSpan(to).IndexOfAnyExcept(" \t\r\n"u8);
        if (after >= to && bytes[after] == ',')
        {
            to = after + 1;
        }
        else if (bytes.AsSpan(0, from).LastIndexOfAnyExcept(" \t\r\n"u8) is >= 0 and var before && bytes[before] == ',')
        {
            from = before;
        }

        return [.. bytes.AsSpan(0, from), .. bytes.AsSpan(to)];
    }

    private static byte[] Swap(byte[] bytes, JsonPart one, JsonPart other)
    {
        var (first, second) = one.From <= other.From ? (one, other) : (other, one);
        if (first.To > second.From)
        {
            return Put(bytes, one.Value, one.To, "null");
        }

        // Members keep a name each: whole where both have one, else the values only.
        var isWhole = first.IsMember == second.IsMember;
        var (from, then) = (isWhole ? first.From : first.Value, isWhole ? second.From : second.Value);
        return [.. bytes.AsSpan(0, from), .. bytes.AsSpan(then, second.To - then), .. bytes.AsSpan(first.To, then - first.To), .. bytes.AsSpan(from, first.To - from), .. bytes.AsSpan(second.To)];
    }

    private static byte[] Rename(byte[] bytes, JsonPart part, Dice dice)
    {
        var at = part.From + 1;
        return dice.Next(6) switch
        {
            0 => Put(bytes, at, at, "_"),
            1 => Put(bytes, at, at + 1, "\\u00" + bytes[at].ToString("x2", System.Globalization.CultureInfo.InvariantCulture)),
            2 => Put(bytes, at, at, "\\ud800"),
            3 => Put(bytes, at, at + 1, ((char)(bytes[at] ^ 0x20)).ToString()),
            4 => Put(bytes, part.From, part.Value, dice.OneOf(Names)),
            _ => Put(bytes, at, at, "\\u0000"),
        };
    }

    private static readonly string[] Names =
    [
        "\"\":", "\"resourceType\":", "\"id\":", "\"valueString\":", "\"valueQuantity\":", "\"modifierExtension\":", "\"extension\":", "\"contained\":", "\"meta\":", "\"entry\":", "\"status\":",
        "\"effectiveTiming\":", "\"link\":", "\"deceasedBoolean\":", "\"valueRange\":",
    ];

    private static byte[] Put(byte[] bytes, int from, int to, string text)
    {
        var put = Encoding.UTF8.GetBytes(text);
        return [.. bytes.AsSpan(0, from), .. put, .. bytes.AsSpan(to)];
    }
}
