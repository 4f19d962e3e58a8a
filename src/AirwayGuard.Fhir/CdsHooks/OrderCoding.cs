using System.Text.Json;

namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>A concept of a drafted order with the code and the words of its only coding changed.</summary>
internal static class OrderCoding
{
    // Whatever else a coding has, chosen by the user or an extension, was said of the old code.
    private static readonly HashSet<string> PlainMembers = new(StringComparer.Ordinal) { "id", "system", "version", "code", "display" };

    /// <summary>
    /// The concept without its text, which meant the old code. Null where it is none, has not exactly one coding, or that one is of another
    /// system or says more than a code and its words.
    /// </summary>
    /// <param name="concept">UTF-8 JSON, well-formed, each member once.</param>
    public static byte[]? Changed(ReadOnlyMemory<byte> concept, CardCoding coding)
    {
        var members = MembersOf(concept);
        if (OnlyItem(members.FirstOrDefault(static member => member.Name == "coding").Value) is not { } only)
        {
            return null;
        }

        var parts = MembersOf(only);
        var isPlain = parts.TrueForAll(static part => PlainMembers.Contains(part.Name));
        return isPlain && TextOf(parts, "system") == coding.System && TextOf(parts, "code") is not null ? Written(members, parts, coding) : null;
    }

    private static byte[] Written(List<Member> members, List<Member> parts, CardCoding coding)
    {
        using var concept = new MemoryStream();
        using (var json = new Utf8JsonWriter(concept))
        {
            json.WriteStartObject();
            foreach (var member in members.Where(static member => member.Name is not ("text" or "_text")))
            {
                json.WritePropertyName(member.Name);
                if (member.Name == "coding")
                {
                    json.WriteStartArray();
                    Write(parts, coding, json);
                    json.WriteEndArray();
                }
                else
                {
                    json.WriteRawValue(member.Value.Span, skipInputValidation: true);
                }
            }

            json.WriteEndObject();
        }

        return concept.ToArray();
    }

    private static void Write(List<Member> parts, CardCoding coding, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        foreach (var part in parts.Where(static part => part.Name != "display"))
        {
            if (part.Name == "code")
            {
                json.WriteString("code"u8, coding.Code);
                Need.WriteFilled(json, "display"u8, coding.Display);
            }
            else
            {
                json.WritePropertyName(part.Name);
                json.WriteRawValue(part.Value.Span, skipInputValidation: true);
            }
        }

        json.WriteEndObject();
    }

    /// <summary>The members of an object with their values as sent; none where it is no object.</summary>
    private static List<Member> MembersOf(ReadOnlyMemory<byte> json)
    {
        var members = new List<Member>();
        _ = JsonBody.Read(json, (ref JsonCursor cursor) =>
        {
            var names = new MemberNames();
            while (cursor.NextMember(ref names))
            {
                var name = cursor.Name;
                cursor.Read();
                var (start, text) = (cursor.Start, cursor.TextIfAny());
                cursor.Skip();
                members.Add(new Member(name, cursor.Since(start), text));
            }
        });
        return members;
    }

    private static ReadOnlyMemory<byte>? OnlyItem(ReadOnlyMemory<byte> list)
    {
        if (list.Span is not [(byte)'[', ..])
        {
            return null;
        }

        var cursor = new JsonCursor(list);
        cursor.Read();
        if (!cursor.NextItem())
        {
            return null;
        }

        var start = cursor.Start;
        cursor.Skip();
        var item = cursor.Since(start);
        return cursor.NextItem() ? null : (ReadOnlyMemory<byte>?)item;
    }

    private static string? TextOf(List<Member> members, string name) => members.FirstOrDefault(member => member.Name == name).Text;

    private readonly record struct Member(string Name, ReadOnlyMemory<byte> Value, string? Text);
}
