using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.Intake;

/// <summary>What a server says of a Subscription.</summary>
public enum SubscriptionState
{
    /// <summary>Nobody can say now.</summary>
    Unknown,
    Requested,
    Active,

    /// <summary>In error, off, or gone: to be made anew.</summary>
    Dead,
}

/// <summary>Creates, watches and removes R4 rest-hook Subscriptions without payload: the notice names nothing.</summary>
public sealed class SubscriptionClient(HttpClient http, FhirGate gate)
{
    private const string Json = "application/fhir+json";

    /// <param name="status"><c>requested</c>, or <c>active</c> for servers that never activate one.</param>
    /// <returns>The id; null where the server did not accept it.</returns>
    public async Task<string?> CreateAsync(string criteria, Uri endpoint, string bearer, string status, CancellationToken stop)
    {
        var subscription = new JsonObject
        {
            ["resourceType"] = "Subscription",
            ["status"] = status,
            ["reason"] = "AirwayGuard: suction and airway charting",
            ["criteria"] = criteria,
            ["channel"] = new JsonObject
            {
                ["type"] = "rest-hook",
                ["endpoint"] = endpoint.AbsoluteUri,
                ["header"] = new JsonArray("Authorization: Bearer " + bearer),
            },
        };
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(gate.BaseAddress, "Subscription"));
        request.Content = new StringContent(subscription.ToJsonString(), Encoding.UTF8, Json);
        return await SendAsync(request, async response =>
        {
            if (response.StatusCode != HttpStatusCode.Created)
            {
                return null;
            }

            return gate.TryResource(response.Headers.Location?.OriginalString, out var made, out _) ? made.Id
                : IdOf(await response.Content.ReadAsStringAsync(stop));
        }, stop);
    }

    /// <summary>Ids of the Subscriptions that notify addresses under ours: left by an earlier run, whose tokens nobody knows any more.</summary>
    public async Task<IReadOnlyList<string>> FindAsync(Uri endpoint, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(gate.BaseAddress, "Subscription?url=" + Uri.EscapeDataString(endpoint.AbsoluteUri)));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(Json));
        return await SendAsync(request, async response =>
            response.StatusCode == HttpStatusCode.OK ? IdsIn(await response.Content.ReadAsStringAsync(stop), endpoint) : [], stop) ?? [];
    }

    public async Task DeleteAsync(string id, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, new Uri(gate.BaseAddress, "Subscription/" + Uri.EscapeDataString(id)));
        await SendAsync<string>(request, static _ => Task.FromResult<string?>(null), stop);
    }

    public async Task<SubscriptionState> StateAsync(string id, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(gate.BaseAddress, "Subscription/" + Uri.EscapeDataString(id)));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(Json));
        var state = await SendAsync(request, async response => response.StatusCode switch
        {
            HttpStatusCode.OK => StatusOf(await response.Content.ReadAsStringAsync(stop)),
            HttpStatusCode.NotFound or HttpStatusCode.Gone => "off",
            _ => null,
        }, stop);
        return state switch
        {
            "active" => SubscriptionState.Active,
            "requested" => SubscriptionState.Requested,
            "off" or "error" => SubscriptionState.Dead,
            _ => SubscriptionState.Unknown,
        };
    }

    private async Task<T?> SendAsync<T>(HttpRequestMessage request, Func<HttpResponseMessage, Task<T?>> read, CancellationToken stop)
        where T : class
    {
        try
        {
            using var response = await http.SendAsync(request, stop);
            return await read(response);
        }
        catch (Exception trouble) when (trouble is HttpRequestException or TimeoutException or Polly.ExecutionRejectedException
            || (trouble is OperationCanceledException && !stop.IsCancellationRequested))
        {
            return null;
        }
    }

    private static string? IdOf(string json) => Member(json, "id");

    private static string? StatusOf(string json) => Member(json, "status");

    private static string? Member(string json, string name)
    {
        try
        {
            return JsonNode.Parse(json)?[name]?.GetValue<string>();
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    // A server that ignores the parameter answers with everybody's: only those that notify us are ours.
    private static List<string> IdsIn(string json, Uri endpoint)
    {
        var ids = new List<string>();
        try
        {
            foreach (var entry in JsonNode.Parse(json)?["entry"] as JsonArray ?? [])
            {
                if (entry?["resource"]?["id"]?.GetValue<string>() is { } id && entry["resource"]?["resourceType"]?.GetValue<string>() == "Subscription"
                    && entry["resource"]?["channel"]?["endpoint"]?.GetValue<string>() == endpoint.AbsoluteUri)
                {
                    ids.Add(id);
                }
            }
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException)
        {
            ids.Clear();
        }

        return ids;
    }
}
