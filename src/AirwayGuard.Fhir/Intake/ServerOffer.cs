using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.Intake;

/// <summary>What the server offers, as its CapabilityStatement says; asked again once an hour.</summary>
internal sealed class ServerOffer(HttpClient http, FhirGate gate, TimeProvider clock)
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromHours(1);
    private static readonly TimeSpan DoubtedFor = TimeSpan.FromMinutes(1);
    private HashSet<string>? _offered;
    private DateTimeOffset _asked;
    private bool _isRefused;
    private bool _refusesQuestions;

    // A server that refuses questions too refuses us, or everybody: that says nothing of what it offers.
    private bool IsDoubtful => _isRefused && _refusesQuestions;

    /// <summary>Whether it gives the history of a type.</summary>
    /// <returns>Null where nobody can say now.</returns>
    public ValueTask<bool?> HistoryAsync(string type, CancellationToken stop) => OffersAsync(History(type), stop);

    /// <summary>Whether a type can be searched by a parameter.</summary>
    /// <inheritdoc cref="HistoryAsync" path="/returns"/>
    public ValueTask<bool?> SearchAsync(string type, string parameter, CancellationToken stop) => OffersAsync(Search(type, parameter), stop);

    /// <summary>It offered the parameter and then refused it: until it is asked again it counts as not offered.</summary>
    public void Refused(string type, string parameter) => _offered?.Remove(Search(type, parameter));

    /// <summary>A question was refused.</summary>
    public void NoteRefused() => _refusesQuestions = true;

    /// <summary>A question was answered.</summary>
    public void NoteAnswered()
    {
        _offered = IsDoubtful ? null : _offered;
        _refusesQuestions = false;
    }

    private async ValueTask<bool?> OffersAsync(string what, CancellationToken stop)
    {
        var now = clock.GetUtcNow();
        if (_offered is null || now - _asked >= (IsDoubtful ? DoubtedFor : GoodFor))
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(gate.BaseAddress, "metadata"));
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("application/fhir+json"));
            using var response = await http.SendAsync(request, stop);
            var isRefused = response.StatusCode is HttpStatusCode.NotFound or HttpStatusCode.Forbidden or HttpStatusCode.MethodNotAllowed or HttpStatusCode.NotImplemented;
            var told = isRefused ? [] : response.StatusCode == HttpStatusCode.OK ? OfferedIn(await response.Content.ReadAsByteArrayAsync(stop)) : null;
            if (told is null)
            {
                return null;
            }

            (_offered, _asked, _isRefused) = (told, now, isRefused);
        }

        return _offered.Contains(what);
    }

    private static string History(string type) => type + "/_history";

    private static string Search(string type, string parameter) => $"{type}?{parameter}";

    private static HashSet<string>? OfferedIn(byte[] body)
    {
        try
        {
            using var document = JsonDocument.Parse(body, new JsonDocumentOptions { MaxDepth = 1_000 });
            var root = document.RootElement;
            return Is(root, "resourceType", "CapabilityStatement")
                ? [.. Objects(root, "rest").Where(rest => !Is(rest, "mode", "client")).SelectMany(rest => Objects(rest, "resource")).SelectMany(OfferedOf)]
                : null;
        }
        catch (Exception malformed) when (malformed is JsonException or InvalidOperationException)
        {
            // The latter: a text in it is no Unicode.
            return null;
        }
    }

    private static IEnumerable<string> OfferedOf(JsonElement resource)
    {
        var type = Text(resource, "type");
        if (Objects(resource, "interaction").Any(interaction => Is(interaction, "code", "history-type")))
        {
            yield return History(type);
        }

        foreach (var parameter in Objects(resource, "searchParam"))
        {
            yield return Search(type, Text(parameter, "name"));
        }
    }

    private static string Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var text) && text.ValueKind == JsonValueKind.String ? text.GetString()! : "";

    private static bool Is(JsonElement element, string name, string value) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var text) && text.ValueKind == JsonValueKind.String && text.ValueEquals(value);

    private static IEnumerable<JsonElement> Objects(JsonElement element, string name) =>
        element.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array
            ? list.EnumerateArray().Where(item => item.ValueKind == JsonValueKind.Object)
            : [];
}
