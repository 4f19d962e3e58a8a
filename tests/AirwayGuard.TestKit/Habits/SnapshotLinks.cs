using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>The next page is at <c>_snapshot</c> of the base, of a result set that was frozen.</summary>
public sealed class SnapshotLinks : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (PathOf(request) is ["_snapshot"])
        {
            // id is the type and the sandbox's name of the page, apart by a point.
            var (id, rest) = (request.RequestUri!.Query["?id=".Length..].Split('&')[0], request.RequestUri.Query.Split('&')[1]);
            request.RequestUri = new Uri($"{BaseOf(request)}/{id.Split('.', 2)[0]}?_page={id.Split('.', 2)[1]}&{rest}");
        }

        var response = await PassAsync(request, cancellationToken);
        if (await JsonAnswer.ReadAsync(response, cancellationToken) is { } body && body["link"] is JsonArray links)
        {
            foreach (var link in links.Where(link => ((string)link!["url"]!).Contains("?_page=", StringComparison.Ordinal) && IsSearch(request)))
            {
                var parts = ((string)link!["url"]!)[(BaseOf(request).Length + 1)..].Split("?_page=");
                link["url"] = $"{BaseOf(request)}/_snapshot?id={parts[0]}.{parts[1]}";
            }

            JsonAnswer.Write(response, body);
        }

        return response;
    }
}
