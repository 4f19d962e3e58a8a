using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Bodies of answers as JSON.</summary>
internal static class JsonAnswer
{
    public const string FhirJson = "application/fhir+json";

    /// <returns>Null where there is no body or it is no JSON object.</returns>
    public static async Task<JsonObject?> ReadAsync(HttpResponseMessage response, CancellationToken stop)
    {
        var bytes = await response.Content.ReadAsByteArrayAsync(stop);
        return bytes is [(byte)'{', ..] ? JsonNode.Parse(bytes) as JsonObject : null;
    }

    public static void Write(HttpResponseMessage response, JsonNode body) => Write(response, body.ToJsonString(), FhirJson);

    public static void Write(HttpResponseMessage response, string body, string mediaType)
    {
        var old = response.Content;
        response.Content = new StringContent(body, Encoding.UTF8, mediaType);
        foreach (var header in old.Headers.Where(header => !header.Key.StartsWith("Content-", StringComparison.Ordinal)))
        {
            response.Content.Headers.TryAddWithoutValidation(header.Key, header.Value);
        }

        old.Dispose();
    }

    /// <summary>A refusal with an OperationOutcome.</summary>
    public static HttpResponseMessage Refuse(HttpRequestMessage request, int status, string issue) => new((HttpStatusCode)status)
    {
        RequestMessage = request,
        Content = new StringContent(
            $$"""{"resourceType":"OperationOutcome","issue":[{"severity":"error","code":"{{issue}}"}]}""", Encoding.UTF8, FhirJson),
    };
}
