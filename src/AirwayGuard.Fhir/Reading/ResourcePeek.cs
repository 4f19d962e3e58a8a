using System.Text;
using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>The members by which a resource is filed, taken from its bytes without reading the rest of it.</summary>
/// <param name="LastUpdated">meta.lastUpdated where it is an instant, UTC ticks; else null.</param>
internal readonly record struct ResourcePeek(string? Type, string? Id, string? Version, long? LastUpdated)
{
    /// <summary>Nothing where the bytes are not well-formed; the reader says so later.</summary>
    public static ResourcePeek Of(ReadOnlySpan<byte> body)
    {
        var peek = new ResourcePeek();
        try
        {
            var reader = new Utf8JsonReader(body);
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return peek;
            }

            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                if (reader.ValueTextEquals("resourceType"u8))
                {
                    peek = peek with { Type = Next(ref reader) };
                }
                else if (reader.ValueTextEquals("id"u8))
                {
                    peek = peek with { Id = Next(ref reader) };
                }
                else if (reader.ValueTextEquals("meta"u8))
                {
                    peek = Meta(ref reader, peek);
                }
                else
                {
                    reader.Skip();
                }
            }
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            return peek;
        }

        return peek;
    }

    private static ResourcePeek Meta(ref Utf8JsonReader reader, ResourcePeek peek)
    {
        reader.Read();
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            reader.Skip();
            return peek;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("versionId"u8))
            {
                peek = peek with { Version = Next(ref reader) };
            }
            else if (reader.ValueTextEquals("lastUpdated"u8))
            {
                var written = Next(ref reader);
                var isInstant = FhirTime.Read(Encoding.UTF8.GetBytes(written ?? ""), out var ticks, out _) == TimeForm.Exact;
                peek = peek with { LastUpdated = isInstant ? ticks : null };
            }
            else
            {
                reader.Skip();
            }
        }

        return peek;
    }

    private static string? Next(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (reader.TokenType == JsonTokenType.String)
        {
            return reader.GetString();
        }

        reader.Skip();
        return null;
    }
}
