using System.Text.Json;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>A page of a sweep that is not as it should be, though it is a Bundle like any other.</summary>
internal abstract class PageFault(string name) : HttpFault(name)
{
    /// <summary>A search in the order of changes, or a history, or a further page of one.</summary>
    public override bool Suits(HttpRequestMessage request) =>
        request.Method == HttpMethod.Get && request.RequestUri!.Query is var query
        && (query.Contains("_sort=_lastUpdated", StringComparison.Ordinal) || query.Contains("_page=", StringComparison.Ordinal));

    public override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, Func<Task<HttpResponseMessage>> server, CancellationToken timeIsOver)
    {
        var answer = await server();
        if (!answer.IsSuccessStatusCode)
        {
            return answer;
        }

        var bundle = JsonNode.Parse(await answer.Content.ReadAsByteArrayAsync(timeIsOver))!.AsObject();
        if (Spoil(bundle, request.RequestUri!))
        {
            var type = answer.Content.Headers.ContentType;
            answer.Content = new ReadOnlyMemoryContent(JsonSerializer.SerializeToUtf8Bytes(bundle));
            answer.Content.Headers.ContentType = type;
        }

        return answer;
    }

    /// <returns>False where there is nothing to spoil.</returns>
    protected abstract bool Spoil(JsonObject bundle, Uri asked);

    protected static JsonArray Entries(JsonObject bundle) => bundle["entry"] as JsonArray ?? [];

    /// <summary>The <c>next</c> link; null for none.</summary>
    protected static JsonNode? Next(JsonObject bundle) =>
        (bundle["link"] as JsonArray)?.FirstOrDefault(link => link?["relation"]?.GetValue<string>() == "next");

    protected static bool Remove(JsonObject bundle, JsonNode? link) => link is not null && ((JsonArray)bundle["link"]!).Remove(link);
}
