using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.TestKit.Habits;

/// <summary>Versions are UUIDs, in tags, bodies and addresses.</summary>
public sealed class UuidVersions : Habit
{
    private readonly ConcurrentDictionary<string, string> _numbers = new(StringComparer.Ordinal);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Headers.TryGetValues("If-Match", out var tags) && _numbers.TryGetValue(tags.First().Replace("W/", "", StringComparison.Ordinal).Trim('"'), out var number))
        {
            request.Headers.Remove("If-Match");
            request.Headers.TryAddWithoutValidation("If-Match", $"W/\"{number}\"");
        }

        var path = PathOf(request);
        if (path is [var type, var id, "_history", var version])
        {
            request.RequestUri = new Uri($"{BaseOf(request)}/{type}/{id}/_history/{_numbers.GetValueOrDefault(version, "0")}");
        }

        var response = await PassAsync(request, cancellationToken);
        if (response.Headers.Location is { } location)
        {
            response.Headers.Location = new Uri(Named(location.OriginalString));
        }

        if (await JsonAnswer.ReadAsync(response, cancellationToken) is { } body)
        {
            Rename(body);
            JsonAnswer.Write(response, body);
        }

        var place = response.Headers.Location?.AbsolutePath["/fhir".Length..].Trim('/').Split('/') ?? path;
        if (response.Headers.NonValidated.TryGetValues("ETag", out var tag) && place is [var ofType, var ofId, ..])
        {
            response.Headers.Remove("ETag");
            response.Headers.TryAddWithoutValidation("ETag", $"W/\"{Uuid(ofType, ofId, tag.First()[3..^1])}\"");
        }

        return response;
    }

    private void Rename(JsonObject body)
    {
        if ((string?)body["resourceType"] == "Bundle")
        {
            foreach (var entry in (body["entry"] as JsonArray ?? []).OfType<JsonObject>())
            {
                if (entry["resource"] is JsonObject resource)
                {
                    Rename(resource);
                }

                if (entry["response"] is JsonObject written && (string?)entry["fullUrl"] is { } place && (string?)written["etag"] is { } tag)
                {
                    var parts = place.Split('/');
                    written["etag"] = $"W/\"{Uuid(parts[^2], parts[^1], tag[3..^1])}\"";
                }
            }
        }
        else if (body["meta"] is JsonObject meta && (string?)meta["versionId"] is { } number)
        {
            meta["versionId"] = Uuid((string)body["resourceType"]!, (string)body["id"]!, number);
        }
    }

    private string Named(string location)
    {
        var parts = location.Split('/');
        return parts is [.., var type, var id, "_history", var number] ? $"{string.Join('/', parts[..^1])}/{Uuid(type, id, number)}" : location;
    }

    private string Uuid(string type, string id, string number)
    {
        var uuid = new Guid(SHA256.HashData(Encoding.UTF8.GetBytes($"{type}/{id}/{number}")).AsSpan(0, 16)).ToString("D");
        _numbers[uuid] = number;
        return uuid;
    }
}
