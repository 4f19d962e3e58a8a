namespace AirwayGuard.TestKit.Habits;

/// <summary>A PUT to an id that the server did not give out is refused with 400.</summary>
public sealed class ChosenIdsRefused : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method != HttpMethod.Put || PathOf(request) is not [_, _])
        {
            return await PassAsync(request, cancellationToken);
        }

        using var standing = await GetAsync(request.RequestUri!, cancellationToken);
        return standing.IsSuccessStatusCode ? await PassAsync(request, cancellationToken) : JsonAnswer.Refuse(request, 400, "invalid");
    }
}
