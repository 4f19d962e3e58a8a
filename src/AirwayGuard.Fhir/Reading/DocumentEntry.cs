using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Reading;

/// <summary>Makes an arrival of an entry of a Bundle, or of a resource that stands alone.</summary>
internal static class DocumentEntry
{
    public static DocumentItem Read(byte[] entry, string where)
    {
        if (entry[0] != (byte)'{')
        {
            return Trouble(Codes.EntryEmpty, where, "The entry is no object.");
        }

        ReadOnlyMemory<byte> resource = default;
        string? address = null, method = null, url = null, etag = null, modified = null;
        var reader = new Utf8JsonReader(entry, new JsonReaderOptions { MaxDepth = int.MaxValue });
        reader.Read();
        try
        {
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var name = reader.GetString();
                reader.Read();
                switch (name)
                {
                    case "resource" when reader.TokenType == JsonTokenType.StartObject:
                        var start = (int)reader.TokenStartIndex;
                        reader.Skip();
                        resource = entry.AsMemory(start, (int)reader.BytesConsumed - start);
                        break;
                    case "fullUrl":
                        address = Text(ref reader);
                        break;
                    case "request" or "response" when reader.TokenType == JsonTokenType.StartObject:
                        ReadExchange(ref reader, ref method, ref url, ref etag, ref modified);
                        break;
                    default:
                        reader.Skip();
                        break;
                }
            }
        }
        catch (InvalidOperationException)
        {
            return Trouble(Codes.NotJson, where, "A text in the entry is not Unicode.");
        }

        return !resource.IsEmpty && method != "DELETE" ? OfResource(resource, where, address)
            : method == "DELETE" ? OfDeletion(url ?? address ?? "", etag, modified, where)
            : Trouble(Codes.EntryEmpty, where, "The entry holds no resource.");
    }

    /// <param name="address">The entry's fullUrl; a urn:uuid: names a resource without id.</param>
    public static DocumentItem OfResource(ReadOnlyMemory<byte> body, string where, string? address)
    {
        var peek = ResourcePeek.Of(body.Span);
        if (peek.Type == "Bundle")
        {
            return Trouble(Codes.NestedBundle, where, "The entry is itself a Bundle.");
        }

        var id = peek.Id ?? (address?.StartsWith("urn:uuid:", StringComparison.Ordinal) == true ? address["urn:uuid:".Length..] : null);
        var knownAt = peek.LastUpdated is { } ticks ? new DateTimeOffset(ticks, TimeSpan.Zero) : DateTimeOffset.UnixEpoch;
        var knownBy = peek.LastUpdated is null ? KnownBy.Import : KnownBy.ServersStamp;
        return new DocumentItem(where, new Arrival(ArrivalKind.Resource, where, peek.Type, id, peek.Version, knownAt, knownBy, body), null) { Address = address };
    }

    private static DocumentItem OfDeletion(string url, string? etag, string? modified, string where)
    {
        Span<byte> scratch = stackalloc byte[ReferenceName.Longest];
        if (!ReferenceName.TryRead(Encoding.UTF8.GetBytes(url), default, scratch, out _, out var name))
        {
            return Trouble(Codes.EntryEmpty, where, "The deletion names no resource by type and id.");
        }

        var parts = Encoding.UTF8.GetString(name).Split('/');
        var isStamped = FhirTime.Read(Encoding.UTF8.GetBytes(modified ?? ""), out var ticks, out _) == TimeForm.Exact;
        var knownAt = isStamped ? new DateTimeOffset(ticks, TimeSpan.Zero) : DateTimeOffset.UnixEpoch;
        var version = etag?.Replace("W/", "", StringComparison.Ordinal).Trim('"');
        return new DocumentItem(where, new Arrival(
            ArrivalKind.Deletion, where, parts[0], parts[1], version, knownAt, isStamped ? KnownBy.ServersStamp : KnownBy.Import, default), null);
    }

    private static void ReadExchange(ref Utf8JsonReader reader, ref string? method, ref string? url, ref string? etag, ref string? modified)
    {
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString();
            reader.Read();
            switch (name)
            {
                case "method":
                    method = Text(ref reader);
                    break;
                case "url":
                    url = Text(ref reader);
                    break;
                case "etag":
                    etag = Text(ref reader);
                    break;
                case "lastModified":
                    modified = Text(ref reader);
                    break;
                default:
                    reader.Skip();
                    break;
            }
        }
    }

    private static string? Text(ref Utf8JsonReader reader)
    {
        if (reader.TokenType == JsonTokenType.String)
        {
            return reader.GetString();
        }

        reader.Skip();
        return null;
    }

    private static DocumentItem Trouble(DiagnosticCode code, string where, string why) => new(where, null, new Problem(code, where, why));
}
