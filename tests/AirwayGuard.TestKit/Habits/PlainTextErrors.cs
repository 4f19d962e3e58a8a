namespace AirwayGuard.TestKit.Habits;

/// <summary>Errors come as plain text.</summary>
public sealed class PlainTextErrors : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        if (!response.IsSuccessStatusCode)
        {
            JsonAnswer.Write(response, "Something went wrong.", "text/plain");
        }

        return Task.CompletedTask;
    }
}
