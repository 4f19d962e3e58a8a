using System.Text.Json;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A PUT of what stands already makes no new version. Tags and narrative count, stamps of the server do not.</summary>
public sealed class UnchangedKeepsVersion : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method == HttpMethod.Put && PathOf(request) is [_, _])
        {
            var standing = await GetAsync(request.RequestUri!, cancellationToken);
            var wanted = Read(await request.Content!.ReadAsByteArrayAsync(cancellationToken));
            if (wanted is not null && standing.IsSuccessStatusCode && await JsonAnswer.ReadAsync(standing, cancellationToken) is { } now && JsonNode.DeepEquals(Unstamped(now), Unstamped(wanted)))
            {
                return standing;
            }

            standing.Dispose();
        }

        return await PassAsync(request, cancellationToken);
    }

    // What is no resource is for the server to refuse.
    private static JsonObject? Read(byte[] body)
    {
        try
        {
            return JsonNode.Parse(body) as JsonObject;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static JsonObject Unstamped(JsonObject resource)
    {
        var copy = resource.DeepClone().AsObject();
        foreach (var stamp in (string[])["versionId", "lastUpdated", "source"])
        {
            (copy["meta"] as JsonObject)?.Remove(stamp);
        }

        if (copy["meta"] is JsonObject { Count: 0 })
        {
            copy.Remove("meta");
        }

        return copy;
    }
}
