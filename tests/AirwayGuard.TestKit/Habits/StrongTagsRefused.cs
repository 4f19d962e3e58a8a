namespace AirwayGuard.TestKit.Habits;

/// <summary><c>If-Match</c> in its strong form is answered with 500.</summary>
public sealed class StrongTagsRefused : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
        request.Headers.TryGetValues("If-Match", out var tags) && !tags.First().StartsWith("W/", StringComparison.Ordinal)
            ? Task.FromResult(JsonAnswer.Refuse(request, 500, "exception"))
            : PassAsync(request, cancellationToken);
}
