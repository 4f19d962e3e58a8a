using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>Writes Bundles (R4 bundle.html) with the stored bytes put in as they are.</summary>
internal sealed class BundleWriter : IDisposable
{
    private readonly ArrayBufferWriter<byte> buffer = new(16 * 1024);
    private readonly Utf8JsonWriter json;
    private bool hasEntries;

    public BundleWriter(string type, DateTimeOffset now, int? total, IReadOnlyList<KeyValuePair<string, string>> links)
    {
        json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, MaxDepth = 512 });
        json.WriteStartObject();
        json.WriteString("resourceType", "Bundle");
        json.WriteStartObject("meta");
        json.WriteString("lastUpdated", ResourceDocument.Instant(now));
        json.WriteEndObject();
        json.WriteString("type", type);
        if (total is { } number)
        {
            json.WriteNumber("total", number);
        }

        if (links.Count > 0)
        {
            json.WriteStartArray("link");
            foreach (var (relation, url) in links)
            {
                json.WriteStartObject();
                json.WriteString("relation", relation);
                json.WriteString("url", url);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }
    }

    public void AddMatch(string baseAddress, StoredVersion version, string mode)
    {
        StartEntry();
        json.WriteString("fullUrl", $"{baseAddress}/{version.Type}/{version.Id}");
        WriteResource(version.Body);
        json.WriteStartObject("search");
        json.WriteString("mode", mode);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    public void AddHistory(string baseAddress, StoredVersion version)
    {
        StartEntry();
        json.WriteString("fullUrl", $"{baseAddress}/{version.Type}/{version.Id}");
        WriteResource(version.Body);
        json.WriteStartObject("request");
        json.WriteString("method", version.Method);
        json.WriteString("url", version.Method == "POST" ? version.Type : $"{version.Type}/{version.Id}");
        json.WriteEndObject();
        WriteResponse(version.Method switch { "POST" => "201 Created", "DELETE" => "204 No Content", _ => "200 OK" }, location: null, version);
        json.WriteEndObject();
    }

    public void AddResponse(string status, string? location, StoredVersion? version, ReadOnlyMemory<byte> resource, ReadOnlyMemory<byte> outcome)
    {
        StartEntry();
        WriteResource(resource);
        WriteResponse(status, location, version, outcome);
        json.WriteEndObject();
    }

    public byte[] Finish()
    {
        // An empty array is not allowed in FHIR's JSON (R4 json.html#primitive).
        if (hasEntries)
        {
            json.WriteEndArray();
        }

        json.WriteEndObject();
        json.Flush();
        return buffer.WrittenSpan.ToArray();
    }

    public void Dispose() => json.Dispose();

    private void StartEntry()
    {
        if (!hasEntries)
        {
            json.WriteStartArray("entry");
            hasEntries = true;
        }

        json.WriteStartObject();
    }

    private void WriteResource(ReadOnlyMemory<byte> resource)
    {
        if (!resource.IsEmpty)
        {
            json.WritePropertyName("resource");
            json.WriteRawValue(resource.Span, skipInputValidation: true);
        }
    }

    private void WriteResponse(string status, string? location, StoredVersion? version, ReadOnlyMemory<byte> outcome = default)
    {
        json.WriteStartObject("response");
        json.WriteString("status", status);
        if (location is not null)
        {
            json.WriteString("location", location);
        }

        if (version is not null)
        {
            json.WriteString("etag", version.ETag);
            json.WriteString("lastModified", ResourceDocument.Instant(version.LastUpdated));
        }

        if (!outcome.IsEmpty)
        {
            json.WritePropertyName("outcome");
            json.WriteRawValue(outcome.Span, skipInputValidation: true);
        }

        json.WriteEndObject();
    }
}
