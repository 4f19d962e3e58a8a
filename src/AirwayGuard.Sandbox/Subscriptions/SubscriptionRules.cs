using System.Net;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;

namespace AirwayGuard.Sandbox.Subscriptions;

/// <summary>
/// What this server accepts as a Subscription (R4 subscription.html): rest-hook, criteria it can test, and an endpoint on
/// this machine only, since a server that posts wherever a client says is a way into the network.
/// </summary>
internal static class SubscriptionRules
{
    private static readonly string[] OwnHeaders = ["Host", "Content-Length", "Content-Type", "Transfer-Encoding", "Connection", "Expect", "Upgrade", "TE", "Trailer"];

    /// <summary>Refuses with 422 what the server could never serve.</summary>
    public static void Check(JsonObject subscription, DateTimeOffset now)
    {
        if (subscription["status"].Text() is not ("requested" or "active"))
        {
            return;
        }

        if (Trouble(subscription, now) is { } trouble)
        {
            throw new SandboxRefusalException(SandboxFault.SubscriptionUnservable, 422, trouble.Code, trouble.Text, trouble.Expression);
        }
    }

    /// <summary>Why the server cannot serve it, null when it can.</summary>
    public static SubscriptionTrouble? Trouble(JsonObject subscription, DateTimeOffset now)
    {
        var channel = subscription.Object("channel") ?? [];
        if (channel["type"].Text() != "rest-hook")
        {
            return new("not-supported", "Only channels of type rest-hook are served.", "Subscription.channel.type");
        }

        if (Endpoint(channel) is null)
        {
            return new("value", "The endpoint is not an http or https address of this machine's loopback.", "Subscription.channel.endpoint");
        }

        if (channel["payload"] is { } payload && payload.Text() is not ("application/fhir+json" or "application/json"))
        {
            return new("not-supported", "Only payloads of type application/fhir+json are sent.", "Subscription.channel.payload");
        }

        if (channel["header"] is JsonArray headers && headers.Any(header => Header(header.Text() ?? "") is null))
        {
            return new("value", "A header is not of the form Name: value or is one the sender sets itself.", "Subscription.channel.header");
        }

        try
        {
            return Criteria(subscription, now) is null
                ? new("value", "The criteria do not start with a resource type.", "Subscription.criteria")
                : null;
        }
        catch (SandboxRefusalException refusal)
        {
            return new(refusal.IssueCode, refusal.Message, "Subscription.criteria");
        }
    }

    /// <summary>The endpoint when it may be called. No name is resolved: only literal addresses and localhost pass.</summary>
    public static Uri? Endpoint(JsonObject channel) =>
        Uri.TryCreate(channel["endpoint"].Text(), UriKind.Absolute, out var endpoint)
        && endpoint.Scheme is "http" or "https"
        && endpoint.UserInfo.Length == 0
        && (endpoint.Host == "localhost" || (IPAddress.TryParse(endpoint.Host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address)))
            ? endpoint
            : null;

    /// <summary>Name and value of a header line; null when it may not be sent.</summary>
    public static KeyValuePair<string, string>? Header(string line)
    {
        var at = line.IndexOf(':', StringComparison.Ordinal);
        if (at <= 0)
        {
            return null;
        }

        var (name, value) = (line[..at].Trim(), line[(at + 1)..].Trim());
        // RFC 9110 §5.6.2 and §5.5: a name is a token, a value has no control characters.
        var sound = name.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.') && value.All(c => c is >= ' ' and <= '~');
        return sound && !OwnHeaders.Contains(name, StringComparer.OrdinalIgnoreCase) ? new(name, value) : null;
    }

    /// <summary>The criteria as a search, unknown parameters refused; null when no type leads them.</summary>
    public static SearchQuery? Criteria(JsonObject subscription, DateTimeOffset now)
    {
        var text = subscription["criteria"].Text() ?? "";
        var at = text.IndexOf('?', StringComparison.Ordinal);
        var type = at < 0 ? text : text[..at];
        return ResourceTypes.IsKnown(type)
            ? SearchReader.Read(type, SearchText.Pairs(at < 0 ? "" : text[(at + 1)..]), strict: true, baseAddress: "", now)
            : null;
    }
}

/// <summary>Why a Subscription cannot be served: issue code, reason, element.</summary>
internal sealed record SubscriptionTrouble(string Code, string Text, string Expression);
