using System.Buffers;
using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Writes a resource anew with the last of each member given twice, as JSON readers do; the SDK refuses the whole otherwise.</summary>
internal static class LastMemberWins
{
    /// <summary>Null where no member is given twice, or a text in it is no Unicode.</summary>
    public static ReadOnlyMemory<byte>? Rewrite(ReadOnlyMemory<byte> body)
    {
        var isChanged = false;
        var buffer = new ArrayBufferWriter<byte>(body.Length + 16);
        using var document = JsonDocument.Parse(body);
        using (var writer = new Utf8JsonWriter(buffer))
        {
            Write(document.RootElement, writer, ref isChanged);
        }

        return isChanged ? buffer.WrittenMemory : null;
    }

    private static void Write(JsonElement element, Utf8JsonWriter writer, ref bool isChanged)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                writer.WriteStartObject();
                var last = new Dictionary<string, JsonElement>(StringComparer.Ordinal);
                foreach (var member in element.EnumerateObject())
                {
                    isChanged |= !last.TryAdd(member.Name, member.Value);
                    last[member.Name] = member.Value;
                }

                foreach (var (name, value) in last)
                {
                    writer.WritePropertyName(name);
                    Write(value, writer, ref isChanged);
                }

                writer.WriteEndObject();
                break;
            case JsonValueKind.Array:
                writer.WriteStartArray();
                foreach (var item in element.EnumerateArray())
                {
                    Write(item, writer, ref isChanged);
                }

                writer.WriteEndArray();
                break;
            default:
                element.WriteTo(writer);
                break;
        }
    }
}
