namespace AirwayGuard.TestKit.Habits;

/// <summary>A reference is found by <c>Type/id</c> only; the bare id finds nothing.</summary>
public sealed class TypedReferencesOnly : Habit
{
    private static readonly string[] References = ["patient", "subject", "target", "device", "encounter", "author"];

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var pairs = request.RequestUri!.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries);
        var bare = pairs.Any(pair => References.Contains(pair.Split('=')[0], StringComparer.Ordinal) && !Uri.UnescapeDataString(pair).Contains('/', StringComparison.Ordinal));
        if (IsSearch(request) && bare)
        {
            request.RequestUri = new Uri($"{BaseOf(request)}/{PathOf(request)[0]}?_id=none");
        }

        return PassAsync(request, cancellationToken);
    }
}
