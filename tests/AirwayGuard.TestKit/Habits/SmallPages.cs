using System.Globalization;

namespace AirwayGuard.TestKit.Habits;

/// <summary>A page is no larger than the server likes, whatever is asked.</summary>
/// <param name="most">Matches on a page.</param>
/// <param name="onlyByDefault">Only where the question names no <c>_count</c>.</param>
public sealed class SmallPages(int most, bool onlyByDefault = false) : Habit
{
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (IsSearch(request) && !request.RequestUri!.Query.Contains("_page=", StringComparison.Ordinal))
        {
            var pairs = request.RequestUri.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries);
            var asked = Array.Find(pairs, pair => pair.StartsWith("_count=", StringComparison.Ordinal)) is { } pair ? int.Parse(pair["_count=".Length..], CultureInfo.InvariantCulture) : (int?)null;
            var count = asked is { } wish ? onlyByDefault ? wish : Math.Min(wish, most) : most;
            var others = string.Concat(pairs.Where(one => !one.StartsWith("_count=", StringComparison.Ordinal)).Select(one => one + "&"));
            request.RequestUri = new Uri(string.Create(CultureInfo.InvariantCulture, $"{BaseOf(request)}/{PathOf(request)[0]}?{others}_count={count}"));
        }

        return PassAsync(request, cancellationToken);
    }
}
