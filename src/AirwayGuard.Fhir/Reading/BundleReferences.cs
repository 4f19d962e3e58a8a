using System.Text;
using System.Text.Json;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Within a Bundle a reference may name another entry by its fullUrl, a <c>urn:</c>, where its resource has an id of its own. Such a reference
/// is read as one to the resource. Not for concurrent use.
/// </summary>
public sealed class BundleReferences
{
    private readonly Dictionary<(string Bundle, string Address), string?> _names = [];

    /// <summary>Notes where an entry's address leads. An address given twice leads nowhere.</summary>
    public void Note(DocumentItem item)
    {
        if (item.Address?.StartsWith("urn:", StringComparison.Ordinal) == true && item.Arrival is { Kind: ArrivalKind.Resource, Type: { } type, Id: { } id })
        {
            var key = (BundleOf(item), item.Address);
            _names[key] = _names.TryGetValue(key, out var other) && other != $"{type}/{id}" ? null : $"{type}/{id}";
        }
    }

    /// <summary>The arrival with its references to addresses of its Bundle led to their resources; as it is where it has none. Never throws on content.</summary>
    public Arrival? Resolve(DocumentItem item)
    {
        if (item.Arrival is not { Kind: ArrivalKind.Resource } arrival || _names.Count == 0 || arrival.Body.Span.IndexOf("\"urn:"u8) < 0)
        {
            return item.Arrival;
        }

        try
        {
            return arrival with { Body = Resolved(arrival.Body, BundleOf(item)) };
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException)
        {
            // It is no JSON, or a text in it no Unicode: whoever reads it tells so.
            return arrival;
        }
    }

    private ReadOnlyMemory<byte> Resolved(ReadOnlyMemory<byte> body, string bundle)
    {
        var reader = new Utf8JsonReader(body.Span, new JsonReaderOptions { MaxDepth = int.MaxValue });
        MemoryStream? written = null;
        var (done, isReference) = (0, false);
        while (reader.Read())
        {
            if (isReference && reader.TokenType == JsonTokenType.String && reader.GetString() is { } address
                && _names.TryGetValue((bundle, address), out var name) && name is not null)
            {
                written ??= new MemoryStream(body.Length);
                written.Write(body.Span[done..(int)reader.TokenStartIndex]);
                written.Write(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(name)));
                done = (int)reader.BytesConsumed;
            }

            isReference = reader.TokenType == JsonTokenType.PropertyName && reader.ValueTextEquals("reference"u8);
        }

        if (written is null)
        {
            return body;
        }

        written.Write(body.Span[done..]);
        return written.ToArray();
    }

    private static string BundleOf(DocumentItem item) =>
        item.Where.LastIndexOf("#entry ", StringComparison.Ordinal) is >= 0 and var end ? item.Where[..end] : item.Where;
}
