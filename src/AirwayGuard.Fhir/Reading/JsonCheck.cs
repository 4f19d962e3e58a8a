using System.Text.Json;
using System.Text.Unicode;
using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Fhir.Reading;

/// <summary>What is wrong with bytes that should be one JSON object with a resourceType.</summary>
internal static class JsonCheck
{
    /// <summary>Bytes an entry may have: what is larger is refused before it is parsed.</summary>
    public const int LargestEntry = 5 * 1024 * 1024;

    /// <summary>Levels an entry may be nested.</summary>
    public const int Deepest = 64;

    /// <summary>The byte order mark left out.</summary>
    public static ReadOnlyMemory<byte> WithoutMark(ReadOnlyMemory<byte> body) => body.Span.StartsWith("\uFEFF"u8) ? body[3..] : body;

    /// <summary>Reads to the end; null if all is well. Costs one pass, so it is asked only where no reader has walked the bytes.</summary>
    /// <param name="type">The (last) resourceType, where it is a text.</param>
    public static DiagnosticCode? Trouble(ReadOnlySpan<byte> body, out string? type)
    {
        type = null;
        if (body.Length > LargestEntry)
        {
            return Codes.TooLarge;
        }

        if (!Utf8.IsValid(body))
        {
            return Codes.NotJson;
        }

        var isObject = false;
        var deepest = 0;
        var reader = new Utf8JsonReader(body, new JsonReaderOptions { MaxDepth = int.MaxValue });
        try
        {
            while (reader.Read())
            {
                isObject |= reader is { CurrentDepth: 0, TokenType: JsonTokenType.StartObject };
                deepest = Math.Max(deepest, reader.CurrentDepth + (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray ? 1 : 0));
                if (reader is { CurrentDepth: 1, TokenType: JsonTokenType.PropertyName } && reader.ValueTextEquals("resourceType"u8)
                    && reader.Read())
                {
                    deepest = Math.Max(deepest, reader.CurrentDepth + 1);
                    type = reader.TokenType == JsonTokenType.String && !reader.ValueIsEscaped ? reader.GetString() : null;
                }
            }
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a name is written with an escape that is no Unicode.
            return deepest > Deepest ? Codes.TooLarge : Codes.NotJson;
        }

        return deepest > Deepest ? Codes.TooLarge
            : isObject && type is { Length: > 0 } ? null
            : Codes.NotAResource;
    }

    /// <summary>True where the bytes begin as an Observation: told from the first member, where nearly every source puts it.</summary>
    public static bool BeginsAsObservation(ReadOnlySpan<byte> body)
    {
        var reader = new Utf8JsonReader(body);
        try
        {
            return reader.Read() && reader.TokenType == JsonTokenType.StartObject
                && reader.Read() && reader.TokenType == JsonTokenType.PropertyName && reader.ValueTextEquals("resourceType"u8)
                && reader.Read() && reader.TokenType == JsonTokenType.String && reader.ValueTextEquals("Observation"u8);
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            return false;
        }
    }
}
