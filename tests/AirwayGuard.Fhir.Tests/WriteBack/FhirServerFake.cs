using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>A small FHIR server in memory with faults on demand: what it holds, what it was asked, and what it says once instead.</summary>
internal sealed class FhirServerFake : HttpMessageHandler
{
    public const string Base = "https://ehr.example.org/fhir";

    private readonly Dictionary<string, JsonObject> _current = new(StringComparer.Ordinal);
    private readonly List<(Func<HttpRequestMessage, bool> When, bool Apply, Func<HttpResponseMessage> Say)> _faults = [];
    private int _ids;

    /// <summary>Method and path with query of every request, in order.</summary>
    public List<string> Asked { get; } = [];

    /// <summary>Headers of every request, in order.</summary>
    public List<string> Headers { get; } = [];

    public List<string> Deleted { get; } = [];

    public bool ForgetsVersions { get; set; }

    public IEnumerable<JsonObject> All(string type) => _current.Where(one => one.Key.StartsWith(type + "/", StringComparison.Ordinal)).Select(one => one.Value);

    public JsonObject Only(string type) => All(type).Single();

    public int Writes(string type) => Asked.Count(line => line.StartsWith("POST " + type, StringComparison.Ordinal) || line.StartsWith("PUT " + type, StringComparison.Ordinal));

    /// <summary>Says something else once; with <paramref name="apply"/> after the request took effect all the same.</summary>
    public void Once(Func<HttpRequestMessage, bool> when, Func<HttpResponseMessage> say, bool apply = false) => _faults.Add((when, apply, say));

    public void Once(HttpMethod method, string type, HttpStatusCode status, bool apply = false) =>
        Once(request => request.Method == method && TypeOf(request) == type, () => new HttpResponseMessage(status), apply);

    public void LosesAnswerOnce(HttpMethod method, string type, bool apply) =>
        Once(request => request.Method == method && TypeOf(request) == type, () => throw new HttpRequestException(HttpRequestError.ConnectionError), apply);

    /// <summary>Somebody else writes: a new version.</summary>
    public void ChangeByPerson(string type, Action<JsonObject> change)
    {
        var resource = Only(type);
        change(resource);
        Bump(resource);
    }

    public void DeleteByPerson(string type)
    {
        var key = _current.Keys.Single(one => one.StartsWith(type + "/", StringComparison.Ordinal));
        _current.Remove(key);
        Deleted.Add(key);
    }

    public void Put(string json)
    {
        var resource = JsonNode.Parse(json)!.AsObject();
        Bump(resource);
        _current[$"{resource["resourceType"]}/{resource["id"]}"] = resource;
    }

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        Asked.Add($"{request.Method} {request.RequestUri!.PathAndQuery["/fhir/".Length..]}");
        Headers.Add(string.Join('\n', request.Headers.Select(header => $"{header.Key}: {string.Join(',', header.Value)}")));
        var at = _faults.FindIndex(fault => fault.When(request));
        if (at < 0)
        {
            return await AnswerAsync(request, cancellationToken);
        }

        var (_, apply, say) = _faults[at];
        _faults.RemoveAt(at);
        if (apply)
        {
            (await AnswerAsync(request, cancellationToken)).Dispose();
        }

        return say();
    }

    private static string TypeOf(HttpRequestMessage request) => request.RequestUri!.AbsolutePath["/fhir/".Length..].Split('/')[0];

    private async Task<HttpResponseMessage> AnswerAsync(HttpRequestMessage request, CancellationToken stop)
    {
        var path = request.RequestUri!.AbsolutePath["/fhir/".Length..];
        if (request.Method == HttpMethod.Get)
        {
            return path.Contains('/', StringComparison.Ordinal) ? Read(path) : Search(path, Uri.UnescapeDataString(request.RequestUri.Query));
        }

        var body = JsonNode.Parse(await request.Content!.ReadAsStringAsync(stop))!.AsObject();
        return request.Method == HttpMethod.Post ? Create(path, body, request) : Update(path, body, request);
    }

    private HttpResponseMessage Read(string path) =>
        Deleted.Contains(path) ? new HttpResponseMessage(HttpStatusCode.Gone)
        : _current.TryGetValue(path, out var resource) ? Say(HttpStatusCode.OK, resource, resource.ToJsonString())
        : new HttpResponseMessage(HttpStatusCode.NotFound);

    private HttpResponseMessage Search(string type, string query)
    {
        var found = new JsonArray();
        foreach (var resource in All(type).Where(one => Matches(one, query)))
        {
            found.Add(new JsonObject { ["fullUrl"] = $"{Base}/{type}/{resource["id"]}", ["resource"] = resource.DeepClone() });
        }

        var bundle = new JsonObject { ["resourceType"] = "Bundle", ["type"] = "searchset" };
        if (found.Count > 0)
        {
            bundle["entry"] = found;
        }

        return new HttpResponseMessage(HttpStatusCode.OK) { Content = new StringContent(bundle.ToJsonString(), Encoding.UTF8, "application/fhir+json") };
    }

    private static bool Matches(JsonObject resource, string query)
    {
        if (query.StartsWith("?target=", StringComparison.Ordinal))
        {
            return resource["target"]!.AsArray().Any(target => $"{target!["reference"]}/".StartsWith(query["?target=".Length..] + "/", StringComparison.Ordinal));
        }

        var wanted = query["?identifier=".Length..].Split('&')[0].Split(',');
        return resource["identifier"]!.AsArray().Any(one => wanted.Contains($"{one!["system"]}|{one["value"]}"));
    }

    private HttpResponseMessage Create(string type, JsonObject body, HttpRequestMessage request)
    {
        if (request.Headers.TryGetValues("If-None-Exist", out var values))
        {
            var matches = All(type).Where(one => Matches(one, "?" + Uri.UnescapeDataString(values.Single()))).ToArray();
            if (matches.Length > 1)
            {
                return new HttpResponseMessage(HttpStatusCode.PreconditionFailed);
            }

            if (matches is [var match])
            {
                return Say(HttpStatusCode.OK, match, null);
            }
        }

        body["id"] = $"{type[..1].ToLowerInvariant()}{++_ids}";
        Bump(body);
        _current[$"{type}/{body["id"]}"] = body;
        return Say(HttpStatusCode.Created, body, null);
    }

    private HttpResponseMessage Update(string path, JsonObject body, HttpRequestMessage request)
    {
        if (Deleted.Contains(path))
        {
            return new HttpResponseMessage(HttpStatusCode.Gone);
        }

        if (!_current.TryGetValue(path, out var resource))
        {
            return new HttpResponseMessage(HttpStatusCode.NotFound);
        }

        if (request.Headers.IfMatch.Single().Tag.Trim('"') != VersionOf(resource))
        {
            return new HttpResponseMessage(HttpStatusCode.PreconditionFailed);
        }

        body["meta"] ??= new JsonObject();
        body["meta"]!["versionId"] = VersionOf(resource);
        Bump(body);
        _current[path] = body;
        return Say(HttpStatusCode.OK, body, null);
    }

    private static string VersionOf(JsonObject resource) => resource["meta"]!["versionId"]!.GetValue<string>();

    private static void Bump(JsonObject resource)
    {
        resource["meta"] ??= new JsonObject();
        var next = resource["meta"]!["versionId"] is { } version ? int.Parse(version.GetValue<string>(), System.Globalization.CultureInfo.InvariantCulture) + 1 : 1;
        resource["meta"]!["versionId"] = next.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    private HttpResponseMessage Say(HttpStatusCode status, JsonObject resource, string? body)
    {
        var response = new HttpResponseMessage(status);
        if (body is not null)
        {
            var shown = JsonNode.Parse(body)!.AsObject();
            if (ForgetsVersions)
            {
                shown["meta"]!.AsObject().Remove("versionId");
            }

            response.Content = new StringContent(shown.ToJsonString(), Encoding.UTF8, "application/fhir+json");
        }

        if (!ForgetsVersions)
        {
            response.Headers.TryAddWithoutValidation("ETag", $"W/\"{VersionOf(resource)}\"");
        }

        response.Headers.TryAddWithoutValidation("Location", $"{Base}/{resource["resourceType"]}/{resource["id"]}");
        return response;
    }
}
