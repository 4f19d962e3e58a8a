using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Utility;

namespace AirwayGuard.Sandbox.Documents;

/// <summary>A resource as JSON, checked; what the client sent is kept, only id and meta are the server's.</summary>
internal sealed class ResourceDocument
{
    private ResourceDocument(JsonObject root, string type)
    {
        Root = root;
        Type = type;
    }

    public JsonObject Root { get; }

    public string Type { get; }

    public string? Id => Root["id"].Text();

    /// <summary>Reads a resource. Refused with 400 when malformed or, under strict validation, against the base definition.</summary>
    public static ResourceDocument Read(ReadOnlyMemory<byte> utf8, SandboxOptions options)
    {
        var root = JsonText.ParseObject(utf8, options.MaxJsonDepth);
        if (utf8.Span is [0xEF, 0xBB, 0xBF, ..])
        {
            utf8 = utf8[3..];
        }

        return Check(root, utf8, options);
    }

    /// <summary>Checks a resource already parsed, as in a bundle's entry.</summary>
    public static ResourceDocument Read(JsonObject root, SandboxOptions options)
    {
        var utf8 = JsonText.Write(root);
        return utf8.Length > options.MaxEntryBytes
            ? throw new SandboxRefusalException(SandboxFault.TooLarge, 413, "too-long", "The resource is larger than this server takes.")
            : Check(JsonText.ParseObject(utf8, options.MaxJsonDepth), utf8, options);
    }

    /// <summary>Sets id and meta as the server's and gives the bytes to keep (R4 resource.html#Meta).</summary>
    public byte[] Stamp(string id, int version, DateTimeOffset updated)
    {
        var meta = Root["meta"] as JsonObject ?? [];
        Root.Remove("meta");
        Root.Remove("id");
        meta.Remove("versionId");
        meta.Remove("lastUpdated");
        meta.Insert(0, "versionId", version.ToString(CultureInfo.InvariantCulture));
        meta.Insert(1, "lastUpdated", Instant(updated));
        var at = Root.IndexOf("resourceType") + 1;
        Root.Insert(at, "id", id);
        Root.Insert(at + 1, "meta", meta);
        return JsonText.Write(Root);
    }

    /// <summary>An instant in FHIR's form, UTC, milliseconds.</summary>
    public static string Instant(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static ResourceDocument Check(JsonObject root, ReadOnlyMemory<byte> utf8, SandboxOptions options)
    {
        var type = root["resourceType"].Text()
            ?? throw new SandboxRefusalException(SandboxFault.WrongType, 400, "structure", "The resource does not name its resourceType.", "resourceType");
        if (!ResourceTypes.IsKnown(type))
        {
            throw new SandboxRefusalException(SandboxFault.WrongType, 400, "structure", "The resourceType is not one of R4.", "resourceType");
        }

        if (options.Validation == SandboxValidation.Strict)
        {
            Validate(type, utf8.Span);
        }

        return new ResourceDocument(root, type);
    }

    // R4 http.html#create: 400 when the resource "could not be parsed or failed basic FHIR validation rules".
    private static void Validate(string type, ReadOnlySpan<byte> utf8)
    {
        IEnumerable<CodedException> issues;
        try
        {
            var reader = new Utf8JsonReader(utf8);
            if (FhirJsonDeserializer.STRICT.TryDeserializeResource(ref reader, out _, out issues))
            {
                return;
            }
        }
        catch (JsonException)
        {
            throw new SandboxRefusalException(SandboxFault.RuleBroken, 400, "structure", "The resource could not be read.", type);
        }

        throw LibraryIssues.Refusal(issues.First(), type);
    }
}
