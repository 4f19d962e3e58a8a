using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.Intake;

/// <summary>Of which types the server gives the history, as its CapabilityStatement says; asked again once an hour.</summary>
internal sealed class HistoryOffer(HttpClient http, FhirGate gate, TimeProvider clock)
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromHours(1);
    private HashSet<string>? _types;
    private DateTimeOffset _asked;

    /// <returns>Null where nobody can say now.</returns>
    public async ValueTask<bool?> OffersAsync(string type, CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (_types is null || now - _asked >= GoodFor)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(gate.BaseAddress, "metadata"));
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
            using var response = await http.SendAsync(request, stop);
            var isRefused = response.StatusCode is HttpStatusCode.NotFound or HttpStatusCode.Forbidden or HttpStatusCode.MethodNotAllowed or HttpStatusCode.NotImplemented;
            var told = isRefused ? [] : response.StatusCode == HttpStatusCode.OK ? TypesIn(await response.Content.ReadAsByteArrayAsync(stop)) : null;
            if (told is null)
            {
                return null;
            }

            (_types, _asked) = (told, now);
        }

        return _types.Contains(type);
    }

    private static HashSet<string>? TypesIn(byte[] body)
    {
        try
        {
            using var document = JsonDocument.Parse(body, new JsonDocumentOptions { MaxDepth = 1_000 });
            var root = document.RootElement;
            return !Is(root, "resourceType", "CapabilityStatement") ? null
                : [.. Objects(root, "rest").Where(rest => !Is(rest, "mode", "client")).SelectMany(rest => Objects(rest, "resource"))
                    .Where(resource => Objects(resource, "interaction").Any(interaction => Is(interaction, "code", "history-type")))
                    .Select(resource => resource.TryGetProperty("type", out var type) && type.ValueKind == JsonValueKind.String ? type.GetString()! : "")];
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static bool Is(JsonElement element, string name, string value) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var text) && text.ValueKind == JsonValueKind.String && text.ValueEquals(value);

    private static IEnumerable<JsonElement> Objects(JsonElement element, string name) =>
        element.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array
            ? list.EnumerateArray().Where(item => item.ValueKind == JsonValueKind.Object)
            : [];
}
