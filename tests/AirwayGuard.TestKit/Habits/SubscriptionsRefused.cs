namespace AirwayGuard.TestKit.Habits;

/// <summary>Subscriptions by criteria are not taken.</summary>
public sealed class SubscriptionsRefused : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
        PathOf(request)[0] == "Subscription" && (request.Method == HttpMethod.Post || request.Method == HttpMethod.Put)
            ? Task.FromResult(JsonAnswer.Refuse(request, 400, "invalid"))
            : PassAsync(request, cancellationToken);
}
