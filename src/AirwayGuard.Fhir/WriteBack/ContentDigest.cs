using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.Client;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>
/// A digest of what a resource says, without id, meta, narrative and the order of members. It stands as a tag on what we write:
/// where the answer to a write was lost, it tells our own version from a person's.
/// </summary>
internal sealed class ContentDigest(FhirGate gate)
{
    private static readonly string[] NotContent = ["id", "meta", "text", "implicitRules", "language"];

    /// <summary>Lower-case hexadecimal, 32 characters.</summary>
    public string Of(Resource resource)
    {
        var content = JsonNode.Parse(FhirJsonSerializer.Default.SerializeToString(resource))!.AsObject();
        foreach (var member in NotContent)
        {
            content.Remove(member);
        }

        var text = new StringBuilder();
        Write(content, "", text);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())).AsSpan(0, 16));
    }

    /// <summary>Puts the digest of its present content on a resource, in place of older ones.</summary>
    public void Stamp(Resource resource)
    {
        resource.Meta ??= new Meta();
        resource.Meta.Tag.RemoveAll(IsDigest);
        resource.Meta.Tag.Add(new Coding(WrittenSystems.ContentDigest, Of(resource)));
    }

    /// <summary>Whether the content is as one of our writes left it. Servers may keep the tags of earlier versions beside the last.</summary>
    public bool Fits(Resource resource)
    {
        var tags = Stamps(resource);
        return tags.Count > 0 && tags.Contains(Of(resource), StringComparer.Ordinal);
    }

    /// <summary>Whether the resource on the server already says what is wanted, also where the server writes content in its own way.</summary>
    public bool Says(Resource standing, Resource wanted)
    {
        var digest = Of(wanted);
        return Of(standing) == digest || (Stamps(standing) is [var only] && only == digest);
    }

    private static List<string?> Stamps(Resource resource) => [.. (resource.Meta?.Tag ?? []).Where(IsDigest).Select(tag => tag.Code)];

    private static bool IsDigest(Coding tag) => tag.System == WrittenSystems.ContentDigest;

    private void Write(JsonNode? node, string name, StringBuilder text)
    {
        switch (node)
        {
            case JsonObject members:
                text.Append('{');
                foreach (var (member, value) in members.OrderBy(one => one.Key, StringComparer.Ordinal))
                {
                    text.Append(member).Append(':');
                    Write(value, member, text);
                }

                text.Append('}');
                break;
            case JsonArray items:
                text.Append('[');
                foreach (var item in items)
                {
                    Write(item, name, text);
                    text.Append(',');
                }

                text.Append(']');
                break;
            default:
                text.Append(Plain(node, name)).Append('\n');
                break;
        }
    }

    // Servers make references absolute and write times in another zone.
    private string Plain(JsonNode? node, string name)
    {
        if (node is not JsonValue value || !value.TryGetValue<string>(out var plain))
        {
            return node?.ToJsonString() ?? "null";
        }

        return name switch
        {
            "reference" when plain.StartsWith("http", StringComparison.Ordinal) && gate.TryResource(plain, out var resource, out _) => resource.ToString(),
            "identifiedDateTime" or "start" or "end" or "date" when plain.Contains('T', StringComparison.Ordinal)
                && DateTimeOffset.TryParse(plain, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var time) => time.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
            _ => plain,
        };
    }
}
