namespace AirwayGuard.TestKit.Habits;

/// <summary>What was deleted is answered with 404, as what never was.</summary>
public sealed class DeletedIsNotFound : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        if (response.StatusCode == System.Net.HttpStatusCode.Gone)
        {
            response.StatusCode = System.Net.HttpStatusCode.NotFound;
        }

        return Task.CompletedTask;
    }
}
