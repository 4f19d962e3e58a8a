namespace AirwayGuard.TestKit.Habits;

/// <summary>Prefer is not looked at: writes answer with the resource, and searches pass over what they do not know.</summary>
public sealed class PreferenceIgnored : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        request.Headers.Remove("Prefer");
        return PassAsync(request, cancellationToken);
    }
}
