using System.Text.Json;

namespace AirwayGuard.Fhir.Intake;

/// <summary>What a searchset or history says about itself.</summary>
/// <param name="ServerTime">meta.lastUpdated.</param>
/// <param name="Next">Address of the next page.</param>
/// <param name="Self">Address with the conditions that the server used; null where it does not say.</param>
/// <param name="Total">How many match over all pages; null where it does not say.</param>
internal sealed record BundleHead(DateTimeOffset? ServerTime, string? Next, string? Self, int? Total)
{
    /// <returns>False where the body is no Bundle.</returns>
    public static bool TryRead(byte[] body, out BundleHead head)
    {
        head = new BundleHead(null, null, null, null);
        try
        {
            using var document = JsonDocument.Parse(body.AsMemory(body.AsSpan().StartsWith("\uFEFF"u8) ? 3 : 0), new JsonDocumentOptions { MaxDepth = 1_000 });
            var root = document.RootElement;
            if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("resourceType", out var kind) || kind.ValueKind != JsonValueKind.String || !kind.ValueEquals("Bundle"))
            {
                return false;
            }

            DateTimeOffset? time = root.TryGetProperty("meta", out var meta) && meta.ValueKind == JsonValueKind.Object
                && meta.TryGetProperty("lastUpdated", out var stamp) && stamp.ValueKind == JsonValueKind.String && stamp.TryGetDateTimeOffset(out var parsed) ? parsed : null;
            int? total = root.TryGetProperty("total", out var number) && number.ValueKind == JsonValueKind.Number && number.TryGetInt32(out var all) ? all : null;
            head = new BundleHead(time, LinkOf(root, "next"), LinkOf(root, "self"), total);
            return true;
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a text in it is no Unicode.
            return false;
        }
    }

    /// <summary>Whether the server says that it used this condition, with whatever modifier.</summary>
    public bool Names(string parameter)
    {
        var query = Self is { } self && self.IndexOf('?', StringComparison.Ordinal) is >= 0 and var at ? self[(at + 1)..] : "";
        foreach (var pair in query.Split('&'))
        {
            var name = Uri.UnescapeDataString(pair.Split('=')[0]);
            if (name == parameter || name.StartsWith(parameter + ":", StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static string? LinkOf(JsonElement bundle, string relation)
    {
        if (!bundle.TryGetProperty("link", out var links) || links.ValueKind != JsonValueKind.Array)
        {
            return null;
        }

        foreach (var link in links.EnumerateArray())
        {
            if (link.ValueKind == JsonValueKind.Object && link.TryGetProperty("relation", out var name) && name.ValueKind == JsonValueKind.String && name.ValueEquals(relation)
                && link.TryGetProperty("url", out var url) && url.ValueKind == JsonValueKind.String)
            {
                return url.GetString();
            }
        }

        return null;
    }
}
