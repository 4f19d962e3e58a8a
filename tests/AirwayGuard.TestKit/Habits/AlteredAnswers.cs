namespace AirwayGuard.TestKit.Habits;

/// <summary>A habit of answering: the sandbox does as it is asked, and what it says is altered on the way back.</summary>
public abstract class AlteredAnswers : Habit
{
    protected sealed override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var response = await PassAsync(request, cancellationToken);
        await AlterAsync(request, response, cancellationToken);
        return response;
    }

    protected abstract Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop);
}
