using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using AirwayGuard.Sandbox.Documents;

namespace AirwayGuard.Sandbox.Subscriptions;

/// <summary>
/// Serves the repository's Subscriptions one bounded piece at a time (R4 subscription.html#rest-hook). A notification may
/// come twice after a restart, never not at all; the order within a Subscription is that of the writes.
/// </summary>
public sealed class SubscriptionDispatcher : IDisposable
{
    private readonly SandboxRepository repository;
    private readonly TimeProvider clock;
    private readonly HttpMessageInvoker sender;

    /// <summary>A dispatcher that sends through <paramref name="handler"/>, which must follow no redirects and use no proxy.</summary>
    public SubscriptionDispatcher(SandboxRepository repository, HttpMessageHandler handler, TimeProvider clock)
    {
        this.repository = repository;
        this.clock = clock;
        sender = new HttpMessageInvoker(handler, disposeHandler: false);
    }

    /// <summary>When the next retry is due; null when nothing waits for a time.</summary>
    public DateTimeOffset? NextDue => repository.Locked(repository.Outbox.NextDue);

    /// <summary>Does one piece of work: activates or ends one Subscription, or tries one notification. False when there is none now.</summary>
    public async Task<bool> StepAsync(CancellationToken cancellation = default)
    {
        if (repository.Transact(TurnOne))
        {
            return true;
        }

        var job = repository.Transact(NextJob);
        if (job is null)
        {
            return false;
        }

        if (job.Request is { } request)
        {
            using (request)
            {
                var delivered = await Deliver(request, cancellation);
                repository.Transact(() => Settle(job, delivered));
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public void Dispose() => sender.Dispose();

    private static HttpRequestMessage Compose(JsonObject channel, Uri endpoint, StoredVersion version)
    {
        HttpRequestMessage request;
        if (channel["payload"].Text() is not null)
        {
            // R4 subscription.html#rest-hook: with a payload the resource is sent as an update to [endpoint]/[type]/[id].
            var address = new UriBuilder(endpoint);
            address.Path = $"{address.Path.TrimEnd('/')}/{version.Type}/{version.Id}";
            request = new HttpRequestMessage(HttpMethod.Put, address.Uri) { Content = new ReadOnlyMemoryContent(version.Body) };
            request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json", "utf-8");
        }
        else
        {
            request = new HttpRequestMessage(HttpMethod.Post, endpoint) { Content = new ByteArrayContent([]) };
        }

        foreach (var line in (channel["header"] as JsonArray ?? []).Select(header => header.Text() ?? ""))
        {
            if (SubscriptionRules.Header(line) is { } header)
            {
                request.Headers.TryAddWithoutValidation(header.Key, header.Value);
            }
        }

        return request;
    }

    private async Task<bool> Deliver(HttpRequestMessage request, CancellationToken cancellation)
    {
        using var timeout = new CancellationTokenSource(repository.Options.DeliveryTimeout, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timeout.Token, cancellation);
        try
        {
            using var response = await sender.SendAsync(request, either.Token);
            return response.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return false;
        }
    }

    // requested becomes active, or error when it cannot be served; active becomes off at its end.
    private bool TurnOne()
    {
        var now = repository.Store.Now();
        foreach (var watch in repository.Outbox.Requested())
        {
            Turn(watch.Version, watch.Trouble is null ? "active" : "error", watch.Trouble?.Text);
            return true;
        }

        foreach (var watch in repository.Outbox.Active())
        {
            if (watch.End <= now)
            {
                Turn(watch.Version, "off", error: null);
                return true;
            }

            if (watch.Trouble is { } trouble)
            {
                Turn(watch.Version, "error", trouble.Text);
                return true;
            }
        }

        return false;
    }

    private Job? NextJob()
    {
        if (repository.Outbox.Due(repository.Store.Now()) is not { } notification)
        {
            repository.Outbox.Rest();
            return null;
        }

        var subscription = repository.Store.Current("Subscription", notification.Subscription);
        var content = subscription is { IsDeletion: false } ? JsonText.ParseObject(subscription.Body, maxDepth: 256) : null;
        var version = repository.Store.At(notification.VersionSequence);
        if (content?["status"].Text() != "active" || content.Object("channel") is not { } channel
            || SubscriptionRules.Endpoint(channel) is not { } endpoint || version is null)
        {
            repository.Outbox.Drop(notification.Subscription);
            return new Job(notification, Request: null);
        }

        return new Job(notification, Compose(channel, endpoint, version));
    }

    private bool Settle(Job job, bool delivered)
    {
        var (notification, options) = (job.Notification, repository.Options);
        if (delivered)
        {
            repository.Outbox.Sent(notification);
        }
        else if (notification.Attempts + 1 < options.MaxDeliveryAttempts)
        {
            repository.Outbox.Postpone(notification, repository.Store.Now() + (options.DeliveryRetryDelay * Math.Pow(2, notification.Attempts)));
        }
        else
        {
            repository.Outbox.Drop(notification.Subscription);
            if (repository.Store.Current("Subscription", notification.Subscription) is { IsDeletion: false } subscription)
            {
                Turn(subscription, "error", "The endpoint did not accept notifications.");
            }
        }

        return delivered;
    }

    private void Turn(StoredVersion version, string status, string? error)
    {
        var content = JsonText.ParseObject(version.Body, maxDepth: 256);
        content["status"] = status;
        content.Remove("error");
        if (error is not null)
        {
            content["error"] = error;
        }

        repository.Update("Subscription", version.Id, ResourceDocument.Read(content, repository.Options), Preconditions.None);
    }

    private sealed record Job(Notification Notification, HttpRequestMessage? Request);
}
