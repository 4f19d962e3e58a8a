using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;
using AirwayGuard.Sandbox.Search;

namespace AirwayGuard.Sandbox.Subscriptions;

/// <summary>One version of a Subscription as it is served: what it asks for, when it ends by its own words, and why it cannot be served.</summary>
internal sealed record Watch(StoredVersion Version, SearchQuery? Criteria, DateTimeOffset? End, SubscriptionTrouble? Trouble)
{
    // A stored Subscription passed the rules when it was written, but perhaps those of an earlier program: a criterion that
    // is no longer understood watches nothing, and the dispatcher turns it into an error.
    public static Watch Of(StoredVersion version, DateTimeOffset now)
    {
        var content = JsonText.ParseObject(version.Body, maxDepth: 256);
        var trouble = SubscriptionRules.Trouble(content, now);
        return new Watch(version, trouble is null ? SubscriptionRules.Criteria(content, now) : null, EndOf(content), trouble);
    }

    private static DateTimeOffset? EndOf(JsonObject subscription) =>
        subscription["end"].Text() is { } end && DateSpan.TryParse(end, out var span) ? new DateTimeOffset(span.Low, TimeSpan.Zero) : null;
}
