using System.Globalization;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>
/// How exactly the server keeps when a resource changed: whole seconds, or 100 ns. One of whole seconds compares what it keeps with
/// what it is asked.
/// </summary>
public sealed class StampPrecision(bool isWholeSeconds) : Habit
{
    private const string Since = "_lastUpdated=ge";

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var query = request.RequestUri!.Query;
        var at = query.IndexOf(Since, StringComparison.Ordinal);
        if (isWholeSeconds && at >= 0)
        {
            var text = query[(at + Since.Length)..].Split('&')[0];
            var asked = DateTimeOffset.Parse(Uri.UnescapeDataString(text), CultureInfo.InvariantCulture).UtcDateTime;
            var next = asked.Ticks % TimeSpan.TicksPerSecond == 0 ? asked : asked.AddTicks(TimeSpan.TicksPerSecond - (asked.Ticks % TimeSpan.TicksPerSecond));
            request.RequestUri = new Uri(request.RequestUri.AbsoluteUri.Replace(Since + text, Since + next.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture), StringComparison.Ordinal));
        }

        var response = await PassAsync(request, cancellationToken);
        if (await JsonAnswer.ReadAsync(response, cancellationToken) is { } body)
        {
            Restamp(body);
            foreach (var resource in (body["entry"] as JsonArray ?? []).Select(entry => entry!["resource"]).OfType<JsonObject>())
            {
                Restamp(resource);
            }

            JsonAnswer.Write(response, body);
        }

        return response;
    }

    private void Restamp(JsonObject resource)
    {
        if (resource["meta"] is JsonObject meta && (string?)meta["lastUpdated"] is { } stamp)
        {
            var time = DateTimeOffset.Parse(stamp, CultureInfo.InvariantCulture).UtcDateTime;
            meta["lastUpdated"] = isWholeSeconds
                ? time.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)
                : time.ToString("yyyy-MM-dd'T'HH:mm:ss.fff", CultureInfo.InvariantCulture) + "4321+00:00";
        }
    }
}
