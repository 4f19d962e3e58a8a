using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Passes over a value that is not read, if it is plain: the SDK, asked to parse it, would find nothing to say.</summary>
internal static class PlainSkip
{
    private const int MostNames = 96;

    /// <summary>False where the value holds a member twice, a null, an escaped name, an escape by code or an array within an array.</summary>
    public static bool TrySkip(ref Utf8JsonReader reader)
    {
        if (reader.TokenType is not (JsonTokenType.StartObject or JsonTokenType.StartArray))
        {
            return IsPlain(ref reader);
        }

        // Hashes of the names of the objects that are open, innermost last; starts holds where each begins, -1 for an array.
        Span<ulong> names = stackalloc ulong[MostNames];
        Span<short> starts = stackalloc short[65];
        var (count, depth) = (0, 0);
        starts[0] = reader.TokenType == JsonTokenType.StartObject ? (short)0 : (short)-1;
        while (reader.Read())
        {
            switch (reader.TokenType)
            {
                case JsonTokenType.PropertyName:
                    var hash = Hash(reader.ValueSpan);
                    if (reader.ValueIsEscaped || count == MostNames || names[starts[depth]..count].Contains(hash))
                    {
                        return false;
                    }

                    names[count++] = hash;
                    break;
                case JsonTokenType.StartObject:
                    starts[++depth] = (short)count;
                    break;
                case JsonTokenType.StartArray when starts[depth] >= 0:
                    starts[++depth] = -1;
                    break;
                case JsonTokenType.StartArray:
                    return false;
                case JsonTokenType.EndObject or JsonTokenType.EndArray:
                    count = starts[depth] >= 0 ? starts[depth] : count;
                    if (depth-- == 0)
                    {
                        return true;
                    }

                    break;
                default:
                    if (!IsPlain(ref reader))
                    {
                        return false;
                    }

                    break;
            }
        }

        return false;
    }

    private static bool IsPlain(ref Utf8JsonReader reader) =>
        reader.TokenType != JsonTokenType.Null && !(reader.ValueIsEscaped && reader.ValueSpan.IndexOf("\\u"u8) >= 0);

    // Case is folded, since the SDK takes a name in another case for the same member. Of value[x] and author[x], of which an
    // object has one, the names count as one.
    private static ulong Hash(ReadOnlySpan<byte> name)
    {
        if (name.Length > 5 && name.StartsWith("value"u8) && name[5] is >= (byte)'A' and <= (byte)'Z')
        {
            name = name[..5];
        }
        else if (name.Length > 6 && name.StartsWith("author"u8) && name[6] is >= (byte)'A' and <= (byte)'Z')
        {
            name = name[..6];
        }

        var hash = 14695981039346656037UL;
        foreach (var letter in name)
        {
            hash = (hash ^ (uint)(letter | 0x20)) * 1099511628211UL;
        }

        return hash;
    }
}
