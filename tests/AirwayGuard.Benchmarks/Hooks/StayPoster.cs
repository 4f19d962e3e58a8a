using System.Net.Http.Headers;
using System.Text;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>Charts a stay at a FHIR server by transactions.</summary>
internal static class StayPoster
{
    private const int EntriesAtOnce = 200;

    /// <exception cref="HttpRequestException">The server refused one.</exception>
    public static async Task PostAsync(HttpClient http, Uri server, HookStay stay)
    {
        foreach (var part in stay.All().Chunk(EntriesAtOnce))
        {
            using var body = new ByteArrayContent(Encoding.UTF8.GetBytes(Transaction(part))) { Headers = { ContentType = new MediaTypeHeaderValue("application/fhir+json") } };
            using var answer = await http.PostAsync(server, body);
            answer.EnsureSuccessStatusCode();
        }
    }

    private static string Transaction(IEnumerable<Arrival> rows) =>
        $$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', rows.Select(Entry))}}]}""";

    private static string Entry(Arrival row) =>
        $$$"""{"resource":{{{Encoding.UTF8.GetString(row.Body.Span)}}},"request":{"method":"PUT","url":"{{{row.Type}}}/{{{row.Id}}}"}}""";
}
