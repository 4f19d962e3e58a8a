using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>JSON in and out: hostile bytes in, the same text out that came in.</summary>
internal static class JsonText
{
    // The answers are never embedded in HTML (application/fhir+json, nosniff), so "+" and "<" stay as they came.
    private static readonly JsonWriterOptions Writing = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, MaxDepth = 512 };

    /// <summary>The object in <paramref name="utf8"/>; anything else, and anything after it, is refused with 400.</summary>
    public static JsonObject ParseObject(ReadOnlyMemory<byte> utf8, int maxDepth)
    {
        if (utf8.Span is [0xEF, 0xBB, 0xBF, ..])
        {
            utf8 = utf8[3..];
        }

        if (utf8.IsEmpty)
        {
            throw new SandboxRefusalException(SandboxFault.NotJson, 400, "structure", "The request has no body.");
        }

        if (!Utf8.IsValid(utf8.Span))
        {
            throw new SandboxRefusalException(SandboxFault.NotJson, 400, "structure", "The body is not UTF-8.");
        }

        try
        {
            CheckStrings(utf8.Span, maxDepth);
            var options = new JsonDocumentOptions { MaxDepth = maxDepth, AllowDuplicateProperties = false };
            if (JsonNode.Parse(utf8.Span, documentOptions: options) is JsonObject root)
            {
                return root;
            }
        }
        catch (JsonException trouble)
        {
            throw new SandboxRefusalException(SandboxFault.NotJson, 400, "structure",
                FormattableString.Invariant($"The body is not well-formed JSON of at most {maxDepth} levels (line {trouble.LineNumber + 1})."));
        }
        catch (InvalidOperationException)
        {
            throw new SandboxRefusalException(SandboxFault.NotJson, 400, "structure", "A string holds half a surrogate pair.");
        }

        throw new SandboxRefusalException(SandboxFault.NotJson, 400, "structure", "The body is not a JSON object.");
    }

    public static byte[] Write(JsonNode node)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>(1024);
        using (var writer = new Utf8JsonWriter(buffer, Writing))
        {
            node.WriteTo(writer);
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>The string a node holds, null when it holds none.</summary>
    public static string? Text(this JsonNode? node) => node is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    /// <summary>The member as an object, null when it is absent or something else.</summary>
    public static JsonObject? Object(this JsonObject node, string name) => node[name] as JsonObject;

    // A lone surrogate passes the parser and throws only where the string is read, so every escaped string is read once here.
    private static void CheckStrings(ReadOnlySpan<byte> utf8, int maxDepth)
    {
        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = maxDepth });
        while (reader.Read())
        {
            if (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName && reader.ValueIsEscaped)
            {
                reader.GetString();
            }
        }
    }
}
