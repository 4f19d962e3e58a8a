namespace AirwayGuard.TestKit.Habits;

/// <summary>If-None-Exist is looked up first and obeyed later: two creates at one time both find nothing, and both write.</summary>
public sealed class RacyCreates : Habit
{
    /// <summary>What passes between looking and writing.</summary>
    public Func<Task> Between { get; set; } = () => Task.CompletedTask;

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method != HttpMethod.Post || !request.Headers.TryGetValues("If-None-Exist", out var values))
        {
            return await PassAsync(request, cancellationToken);
        }

        using var found = await GetAsync(new Uri($"{request.RequestUri}?{values.First()}"), cancellationToken);
        var isThere = found.IsSuccessStatusCode && (int?)(await JsonAnswer.ReadAsync(found, cancellationToken))?["total"] > 0;
        await Between();
        if (!isThere)
        {
            request.Headers.Remove("If-None-Exist");
        }

        return await PassAsync(request, cancellationToken);
    }
}
