namespace AirwayGuard.TestKit.Habits;

/// <summary>Location is <c>Type/id/_history/version</c>, relative to the base.</summary>
public sealed class RelativeVersionedLocation : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        if (response.Headers.Location is { } place)
        {
            response.Headers.Location = new Uri(place.OriginalString[(BaseOf(request).Length + 1)..], UriKind.Relative);
        }

        return Task.CompletedTask;
    }
}
