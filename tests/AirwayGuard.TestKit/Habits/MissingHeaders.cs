namespace AirwayGuard.TestKit.Habits;

/// <summary>Headers that the server does not send.</summary>
public sealed class MissingHeaders(params string[] names) : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        foreach (var name in names)
        {
            _ = name.StartsWith("Last-", StringComparison.Ordinal) ? response.Content.Headers.Remove(name) : response.Headers.Remove(name);
        }

        return Task.CompletedTask;
    }
}
