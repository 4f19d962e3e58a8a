using System.Text.Json;

namespace AirwayGuard.Fhir.Reading;

/// <summary>
/// Finds a null where a list of elements holds one, which R4's JSON allows only beside extensions of a primitive. The SDK keeps it as it
/// is, and whatever reads the list would meet it.
/// </summary>
internal static class NullElements
{
    /// <param name="body">Well-formed JSON.</param>
    public static bool AreIn(ReadOnlyMemory<byte> body)
    {
        if (body.Span.IndexOf("null"u8) < 0)
        {
            return false;
        }

        using var document = JsonDocument.Parse(body, new JsonDocumentOptions { MaxDepth = JsonCheck.Deepest });
        return Hold(document.RootElement);
    }

    private static bool Hold(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().Any(member =>
            (member.Value.ValueKind == JsonValueKind.Array && !member.Name.StartsWith('_') && !element.TryGetProperty("_" + member.Name, out _)
                && member.Value.EnumerateArray().Any(one => one.ValueKind == JsonValueKind.Null))
            || Hold(member.Value)),
        JsonValueKind.Array => element.EnumerateArray().Any(Hold),
        _ => false,
    };
}
