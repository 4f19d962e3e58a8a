namespace AirwayGuard.TestKit.Habits;

/// <summary>One request of so many is answered 429, with an OperationOutcome and without Retry-After.</summary>
public sealed class Throttling(int oneOf) : Habit
{
    private int _asked;

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
        ++_asked % oneOf == 0 ? Task.FromResult(Throttled(request)) : PassAsync(request, cancellationToken);

    private static HttpResponseMessage Throttled(HttpRequestMessage request)
    {
        var answer = JsonAnswer.Refuse(request, 429, "throttled");
        answer.Headers.TryAddWithoutValidation("RateLimit", "\"requests\";r=0;t=60");
        return answer;
    }
}
