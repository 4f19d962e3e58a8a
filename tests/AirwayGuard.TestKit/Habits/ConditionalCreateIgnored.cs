namespace AirwayGuard.TestKit.Habits;

/// <summary>If-None-Exist is not looked at: every create writes.</summary>
public sealed class ConditionalCreateIgnored : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        request.Headers.Remove("If-None-Exist");
        return PassAsync(request, cancellationToken);
    }
}
