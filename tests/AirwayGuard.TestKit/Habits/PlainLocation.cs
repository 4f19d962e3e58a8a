namespace AirwayGuard.TestKit.Habits;

/// <summary>Location names the resource without its version.</summary>
/// <param name="isRelative">Relative to the base, as <c>Type/id</c>.</param>
public sealed class PlainLocation(bool isRelative = false) : AlteredAnswers
{
    protected override Task AlterAsync(HttpRequestMessage request, HttpResponseMessage response, CancellationToken stop)
    {
        if (response.Headers.Location?.OriginalString.Split("/_history/")[0] is { } place)
        {
            response.Headers.Location = isRelative ? new Uri(place[(BaseOf(request).Length + 1)..], UriKind.Relative) : new Uri(place);
        }

        return Task.CompletedTask;
    }
}
