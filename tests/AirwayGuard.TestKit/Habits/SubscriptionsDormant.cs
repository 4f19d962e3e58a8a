using System.Collections.Concurrent;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Subscriptions are kept and never become active, whatever status they are sent with; no notice is ever sent.</summary>
/// <param name="unlessSentActive">One that is sent as active is.</param>
public sealed class SubscriptionsDormant(bool unlessSentActive = false) : Habit
{
    private readonly ConcurrentDictionary<string, byte> _dormant = new(StringComparer.Ordinal);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (PathOf(request)[0] != "Subscription")
        {
            return await PassAsync(request, cancellationToken);
        }

        var sleeps = await PutAsleepAsync(request, cancellationToken);
        var response = await PassAsync(request, cancellationToken);
        if (sleeps && response.Headers.Location?.OriginalString.Split("/Subscription/")[^1].Split('/')[0] is { } id)
        {
            _dormant[id] = 0;
        }

        if (await JsonAnswer.ReadAsync(response, cancellationToken) is { } body)
        {
            foreach (var resource in (body["entry"] as JsonArray ?? []).Select(entry => entry!["resource"]).Prepend(body).OfType<JsonObject>())
            {
                if ((string?)resource["id"] is { } one && _dormant.ContainsKey(one))
                {
                    resource["status"] = "requested";
                }
            }

            JsonAnswer.Write(response, body);
        }

        return response;
    }

    // The sandbox sends nothing for one that is off.
    private async Task<bool> PutAsleepAsync(HttpRequestMessage request, CancellationToken stop)
    {
        if (request.Content is null)
        {
            return false;
        }

        var subscription = JsonNode.Parse(await request.Content.ReadAsByteArrayAsync(stop))!;
        var sentActive = (string?)subscription["status"] == "active";
        subscription["status"] = unlessSentActive && sentActive ? "requested" : "off";
        request.Content.Dispose();
        request.Content = new StringContent(subscription.ToJsonString(), Encoding.UTF8, JsonAnswer.FhirJson);
        return !(unlessSentActive && sentActive);
    }
}
