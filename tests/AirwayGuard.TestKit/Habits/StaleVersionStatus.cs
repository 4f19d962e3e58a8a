namespace AirwayGuard.TestKit.Habits;

/// <summary>A write over a version that is no longer current is answered with another status than 412.</summary>
/// <param name="status">409 or 500.</param>
public sealed class StaleVersionStatus(int status) : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var response = await PassAsync(request, cancellationToken);
        if ((int)response.StatusCode != 412 || !request.Headers.Contains("If-Match"))
        {
            return response;
        }

        response.Dispose();
        return JsonAnswer.Refuse(request, status, "exception");
    }
}
