using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.Intake;

/// <summary>Creates, watches and removes R4 rest-hook Subscriptions without payload: the notice names nothing.</summary>
public sealed class SubscriptionClient(HttpClient http, FhirGate gate)
{
    private const string Json = "application/fhir+json";

    /// <param name="status"><c>requested</c>, or <c>active</c> for servers that never activate one.</param>
    public async Task<SubscriptionMade> CreateAsync(string criteria, Uri endpoint, string bearer, string status, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(gate.BaseAddress, "Subscription"));
        request.Content = Content(null, criteria, endpoint, bearer, status);
        return await SendAsync(request, async response =>
        {
            if (response.StatusCode != HttpStatusCode.Created)
            {
                return new SubscriptionMade(null, IsRefusal(response.StatusCode));
            }

            return new SubscriptionMade(
                gate.TryResource(response.Headers.Location?.OriginalString, out var made, out _) ? made.Id : Member(await response.Content.ReadAsStringAsync(stop), "id"), false);
        }, stop) ?? new SubscriptionMade(null, false);
    }

    /// <summary>Writes a Subscription of ours over: a new token, and whatever changed of the rest.</summary>
    public async Task<SubscriptionWrite> UpdateAsync(string id, string criteria, Uri endpoint, string bearer, string status, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, AddressOf(id));
        request.Content = Content(id, criteria, endpoint, bearer, status);
        var answer = await SendAsync(request, static response => Task.FromResult<HttpStatusCode?>(response.StatusCode), stop);
        return answer switch
        {
            HttpStatusCode.OK or HttpStatusCode.Created or HttpStatusCode.NoContent => SubscriptionWrite.Done,
            { } code when IsRefusal(code) => SubscriptionWrite.Refused,
            _ => SubscriptionWrite.Unknown,
        };
    }

    /// <summary>Ids of the Subscriptions that notify addresses under ours: left by an earlier run, whose tokens nobody knows any more.</summary>
    public async Task<IReadOnlyList<string>> FindAsync(Uri endpoint, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(gate.BaseAddress, "Subscription?url=" + Uri.EscapeDataString(endpoint.AbsoluteUri)));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(Json));
        return await SendAsync(request, async response =>
            response.StatusCode == HttpStatusCode.OK ? IdsIn(await response.Content.ReadAsStringAsync(stop), endpoint) : [], stop) ?? [];
    }

    /// <returns>Whether it is gone for certain.</returns>
    public async Task<bool> DeleteAsync(string id, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, AddressOf(id));
        return await SendAsync(request, static response => Task.FromResult<HttpStatusCode?>(response.StatusCode), stop)
            is HttpStatusCode.OK or HttpStatusCode.Accepted or HttpStatusCode.NoContent or HttpStatusCode.NotFound or HttpStatusCode.Gone;
    }

    public async Task<SubscriptionState> StateAsync(string id, CancellationToken stop)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, AddressOf(id));
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(Json));
        return await SendAsync<SubscriptionState?>(request, async response => response.StatusCode switch
        {
            HttpStatusCode.OK => Member(await response.Content.ReadAsStringAsync(stop), "status") switch
            {
                "active" => SubscriptionState.Active,
                "requested" => SubscriptionState.Requested,
                "off" or "error" => SubscriptionState.Stopped,
                _ => SubscriptionState.Unknown,
            },
            HttpStatusCode.NotFound or HttpStatusCode.Gone => SubscriptionState.Gone,
            _ => SubscriptionState.Unknown,
        }, stop) ?? SubscriptionState.Unknown;
    }

    private Uri AddressOf(string id) => new(gate.BaseAddress, "Subscription/" + Uri.EscapeDataString(id));

    private static StringContent Content(string? id, string criteria, Uri endpoint, string bearer, string status)
    {
        var subscription = new JsonObject { ["resourceType"] = "Subscription" };
        if (id is not null)
        {
            subscription["id"] = id;
        }

        subscription["status"] = status;
        subscription["reason"] = "AirwayGuard: suction and airway charting";
        subscription["criteria"] = criteria;
        subscription["channel"] = new JsonObject
        {
            ["type"] = "rest-hook",
            ["endpoint"] = endpoint.AbsoluteUri,
            ["header"] = new JsonArray("Authorization: Bearer " + bearer),
        };
        return new StringContent(subscription.ToJsonString(), Encoding.UTF8, Json);
    }

    // Asking again as before changes nothing; any other answer may be another one later.
    private static bool IsRefusal(HttpStatusCode status) =>
        (int)status is >= 400 and < 500 and not (401 or 408 or 425 or 429) or 501;

    private async Task<T?> SendAsync<T>(HttpRequestMessage request, Func<HttpResponseMessage, Task<T?>> read, CancellationToken stop)
    {
        try
        {
            using var response = await http.SendAsync(request, stop);
            return await read(response);
        }
        catch (Exception trouble) when (trouble is HttpRequestException or TimeoutException or Polly.ExecutionRejectedException
            || (trouble is OperationCanceledException && !stop.IsCancellationRequested))
        {
            return default;
        }
    }

    private static string? Member(string json, string name)
    {
        try
        {
            return JsonNode.Parse(json)?[name]?.GetValue<string>();
        }
        catch (Exception trouble) when (IsOfTheAnswer(trouble))
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
        catch (Exception trouble) when (IsOfTheAnswer(trouble))
        {
            ids.Clear();
        }

        return ids;
    }

    /// <summary>What reading an answer throws: it is no JSON, a member is of another kind or no Unicode, or one is given twice (ArgumentException).</summary>
    private static bool IsOfTheAnswer(Exception trouble) => trouble is JsonException or InvalidOperationException or ArgumentException;
}
