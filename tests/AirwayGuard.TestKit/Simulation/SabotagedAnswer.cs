using System.Text.Json;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>An answer as the service would understand it if a promise about what it reads were broken.</summary>
internal static class SabotagedAnswer
{
    public static async Task<HttpResponseMessage> OfAsync(HttpRequestMessage request, HttpResponseMessage answer, SimulatedServer server, Sabotage sabotage)
    {
        var spoil = sabotage switch
        {
            Sabotage.CopiesUnnoticed when request.RequestUri!.Query.Contains("?identifier=", StringComparison.Ordinal) => OneOnly,
            Sabotage.PersonsHandUnnoticed => node => WithoutHand(node, server),
            _ => (Action<JsonNode>?)null,
        };
        if (spoil is null || request.Method != HttpMethod.Get || !answer.IsSuccessStatusCode)
        {
            return answer;
        }

        var body = await answer.Content.ReadAsByteArrayAsync();
        if (TryParse(body) is { } node)
        {
            spoil(node);
            var type = answer.Content.Headers.ContentType;
            answer.Content = new ReadOnlyMemoryContent(JsonSerializer.SerializeToUtf8Bytes(node));
            answer.Content.Headers.ContentType = type;
        }

        return answer;
    }

    private static void OneOnly(JsonNode bundle)
    {
        while (bundle["entry"] is JsonArray { Count: > 1 } entries)
        {
            entries.RemoveAt(1);
        }
    }

    // What stands is shown as we wrote it, under the version that the person left.
    private static void WithoutHand(JsonNode node, SimulatedServer server)
    {
        if (node["resourceType"]?.GetValue<string>() is not ("Flag" or "DetectedIssue") || server.Hands.Before(node["id"]!.GetValue<string>()) is not { } before)
        {
            return;
        }

        var ours = JsonNode.Parse(before.Span)!.AsObject();
        foreach (var member in node.AsObject().Select(one => one.Key).Where(name => name != "meta").ToArray())
        {
            node.AsObject().Remove(member);
        }

        foreach (var (name, value) in ours.Where(one => one.Key != "meta").ToArray())
        {
            node[name] = value?.DeepClone();
        }
    }

    private static JsonNode? TryParse(byte[] body)
    {
        try
        {
            return JsonNode.Parse(body);
        }
        catch (JsonException)
        {
            // Cut short on the way.
            return null;
        }
    }
}
