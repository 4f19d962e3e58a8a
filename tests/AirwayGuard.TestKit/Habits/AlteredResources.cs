using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A habit of writing JSON: every object that is answered is altered on the way back.</summary>
public abstract class AlteredResources : AlteredAnswers
{
    protected sealed override async Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        AlterHeaders(request, response);
        if (await JsonAnswer.ReadAsync(response, stop) is { } body)
        {
            AlterBody(request, response, body);
            JsonAnswer.Write(response, body);
        }
    }

    protected virtual void AlterHeaders(HttpRequestMessage request, HttpResponseMessage response)
    {
    }

    protected abstract void AlterBody(HttpRequestMessage request, HttpResponseMessage response, JsonObject body);

    /// <summary>The resource itself, or those of a Bundle with the entries they stand in.</summary>
    protected static IEnumerable<(JsonObject Resource, JsonObject? Entry)> ResourcesIn(JsonObject body) =>
        (string?)body["resourceType"] != "Bundle"
            ? [(body, null)]
            : EntriesIn(body).Where(entry => entry["resource"] is JsonObject).Select(entry => (entry["resource"]!.AsObject(), (JsonObject?)entry));

    protected static IEnumerable<JsonObject> EntriesIn(JsonObject bundle) => (bundle["entry"] as JsonArray ?? []).OfType<JsonObject>();
}
