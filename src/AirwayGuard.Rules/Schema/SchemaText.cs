using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace AirwayGuard.Rules.Schema;

/// <summary>JSON as a person reads and compares it: what fits on a line stands on one.</summary>
internal static class SchemaText
{
    private const int Widest = 140;

    private static readonly JsonSerializerOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Of(JsonNode node)
    {
        var text = new StringBuilder();
        Write(node, 0, text);
        return text.Append('\n').ToString();
    }

    private static void Write(JsonNode? node, int depth, StringBuilder text)
    {
        var line = node is null ? "null" : node.ToJsonString(Options);
        if (depth > 0 && line.Length + (2 * depth) <= Widest)
        {
            text.Append(line);
            return;
        }

        switch (node)
        {
            case JsonObject map:
                Lines(map.Select(entry => ($"{JsonSerializer.Serialize(entry.Key, Options)}: ", entry.Value)), '{', '}', depth, text);
                break;
            case JsonArray list:
                Lines(list.Select(item => ("", item)), '[', ']', depth, text);
                break;
            default:
                text.Append(line);
                break;
        }
    }

    private static void Lines(IEnumerable<(string Key, JsonNode? Value)> items, char open, char close, int depth, StringBuilder text)
    {
        text.Append(open);
        var comma = "";
        foreach (var (key, value) in items)
        {
            text.Append(comma).Append('\n').Append(' ', 2 * (depth + 1)).Append(key);
            Write(value, depth + 1, text);
            comma = ",";
        }

        text.Append('\n').Append(' ', 2 * depth).Append(close);
    }
}
