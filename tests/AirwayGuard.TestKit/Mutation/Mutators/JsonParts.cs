using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;

namespace AirwayGuard.TestKit.Mutation.Mutators;

/// <summary>Finds the values of JSON, of one text or of lines of them.</summary>
internal static class JsonParts
{
    /// <summary>Each value, an outer one before those in it; as far as the bytes are JSON.</summary>
    public static List<JsonPart> Of(ReadOnlySpan<byte> json)
    {
        var parts = new List<JsonPart>();
        var open = new Stack<int>();
        var reader = new Utf8JsonReader(json, new JsonReaderOptions { MaxDepth = 10_000, AllowMultipleValues = true });
        var name = -1;
        try
        {
            while (reader.Read())
            {
                var at = (int)reader.TokenStartIndex;
                switch (reader.TokenType)
                {
                    case JsonTokenType.PropertyName:
                        name = at;
                        continue;
                    case JsonTokenType.EndArray or JsonTokenType.EndObject:
                        var begun = open.Pop();
                        CollectionsMarshal.AsSpan(parts)[begun] = parts[begun] with { To = (int)reader.BytesConsumed };
                        break;
                    default:
                        parts.Add(new JsonPart(name < 0 ? at : name, at, (int)reader.BytesConsumed, open.TryPeek(out var parent) ? parent : -1));
                        if (reader.TokenType is JsonTokenType.StartArray or JsonTokenType.StartObject)
                        {
                            open.Push(parts.Count - 1);
                        }

                        break;
                }

                name = -1;
            }
        }
        catch (JsonException)
        {
            // What was found so far is enough to change.
        }

        return parts;
    }

    /// <summary>The same JSON with the mark in what names a person or quotes one.</summary>
    public static byte[] Marked(byte[] json)
    {
        var marked = new List<byte>(json.Length + 200);
        var taken = 0;
        foreach (var part in Of(json))
        {
            if (json[part.Value] == '"' && NamesPerson(json, part))
            {
                marked.AddRange(json.AsSpan(taken, part.To - 1 - taken));
                marked.AddRange(Encoding.ASCII.GetBytes(" " + Edges.Mark));
                taken = part.To - 1;
            }
        }

        marked.AddRange(json.AsSpan(taken));
        return [.. marked];
    }

    private static bool NamesPerson(byte[] json, JsonPart part)
    {
        if (!part.IsMember)
        {
            return false;
        }

        var name = Encoding.UTF8.GetString(json.AsSpan(part.From + 1, json.AsSpan(part.From + 1).IndexOf((byte)'"')));
        return name is "family" or "text" or "display" or "line" or "city" or "div" or "comment" or "valueString" or "diagnostics" or "userComment";
    }
}
