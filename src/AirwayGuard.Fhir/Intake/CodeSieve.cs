using System.Text.Json;

namespace AirwayGuard.Fhir.Intake;

/// <summary>Takes of a server's rows those that were asked for, where the server did not do so itself.</summary>
internal static class CodeSieve
{
    /// <summary>Whether the row or a component of it carries one of the codes. What cannot be read passes: it is parked, not dropped.</summary>
    public static bool Passes(ReadOnlyMemory<byte> row, IReadOnlyList<SweepCode> codes)
    {
        try
        {
            using var document = JsonDocument.Parse(row, new JsonDocumentOptions { MaxDepth = 1_000 });
            var root = document.RootElement;
            return root.ValueKind != JsonValueKind.Object || HasCode(root, codes)
                || (root.TryGetProperty("component", out var components) && components.ValueKind == JsonValueKind.Array
                    && components.EnumerateArray().Any(component => component.ValueKind == JsonValueKind.Object && HasCode(component, codes)));
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a text in it is no Unicode.
            return true;
        }
    }

    private static bool HasCode(JsonElement element, IReadOnlyList<SweepCode> codes) =>
        element.TryGetProperty("code", out var code) && code.ValueKind == JsonValueKind.Object
        && code.TryGetProperty("coding", out var codings) && codings.ValueKind == JsonValueKind.Array
        && codings.EnumerateArray().Any(coding => Text(coding, "system") is { } system && Text(coding, "code") is { } value && codes.Contains(new SweepCode(system, value)));

    private static string? Text(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var text) && text.ValueKind == JsonValueKind.String ? text.GetString() : null;
}
