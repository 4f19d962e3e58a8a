namespace AirwayGuard.TestKit.Habits;

/// <summary>HEAD is not served.</summary>
public sealed class HeadRefused : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) =>
        request.Method == HttpMethod.Head ? Task.FromResult(JsonAnswer.Refuse(request, 405, "not-supported")) : PassAsync(request, cancellationToken);
}
