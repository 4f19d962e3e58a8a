using System.Globalization;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>The next page is the same question with <c>_offset</c>, asked anew: what comes between moves the pages.</summary>
/// <param name="isRelative">The link is relative to the base.</param>
public sealed class OffsetLinks(bool isRelative = false) : Habit
{
    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (!IsSearch(request))
        {
            return await PassAsync(request, cancellationToken);
        }

        var pairs = request.RequestUri!.Query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries).ToList();
        var (offset, count) = (Take(pairs, "_offset=") ?? 0, Take(pairs, "_count=") ?? 50);
        var root = $"{BaseOf(request)}/{PathOf(request)[0]}?{string.Concat(pairs.Select(pair => pair + "&"))}";
        request.RequestUri = new Uri(string.Create(CultureInfo.InvariantCulture, $"{root}_count={offset + count}"));
        var response = await PassAsync(request, cancellationToken);
        if (await JsonAnswer.ReadAsync(response, cancellationToken) is { } body && (string?)body["resourceType"] == "Bundle")
        {
            var hasMore = (body["link"] as JsonArray ?? []).Any(link => (string?)link!["relation"] == "next");
            body.Remove("link");
            var links = new JsonArray { new JsonObject { ["relation"] = "self", ["url"] = string.Create(CultureInfo.InvariantCulture, $"{root}_count={count}&_offset={offset}") } };
            if (hasMore)
            {
                var next = string.Create(CultureInfo.InvariantCulture, $"{root}_count={count}&_offset={offset + count}");
                links.Add(new JsonObject { ["relation"] = "next", ["url"] = isRelative ? next[(BaseOf(request).Length + 1)..] : next });
            }

            body["link"] = links;
            body["entry"] = new JsonArray([.. (body["entry"] as JsonArray ?? []).Skip(offset).Select(entry => entry!.DeepClone())]);
            if (body["entry"]!.AsArray().Count == 0)
            {
                body.Remove("entry");
            }

            JsonAnswer.Write(response, body);
        }

        return response;
    }

    private static int? Take(List<string> pairs, string name)
    {
        var value = pairs.Find(pair => pair.StartsWith(name, StringComparison.Ordinal));
        pairs.RemoveAll(pair => pair.StartsWith(name, StringComparison.Ordinal));
        return value is null ? null : int.Parse(value[name.Length..], CultureInfo.InvariantCulture);
    }
}
