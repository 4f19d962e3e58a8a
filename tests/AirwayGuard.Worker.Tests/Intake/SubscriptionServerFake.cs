using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A server with Subscriptions and nothing else, and the habits that servers have with them.</summary>
internal sealed class SubscriptionServerFake : HttpMessageHandler
{
    private int _next = 1;

    /// <summary>The Subscriptions there are, by id.</summary>
    public SortedDictionary<string, JsonNode> Stored { get; } = new(StringComparer.Ordinal);

    /// <summary>What a Subscription that is sent as requested becomes.</summary>
    public string Becomes { get; set; } = "active";

    /// <summary>Answered to everything, where set.</summary>
    public HttpStatusCode? Always { get; set; }

    public bool MayWriteOver { get; set; } = true;

    public List<string> Asked { get; } = [];

    public int Writes => Asked.Count(asked => !asked.StartsWith("GET", StringComparison.Ordinal));

    public IEnumerable<string> Endpoints => Stored.Values.Select(one => one["channel"]!["endpoint"]!.GetValue<string>());

    public void SetAll(string status)
    {
        foreach (var one in Stored.Values)
        {
            one["status"] = status;
        }
    }

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var path = request.RequestUri!.AbsolutePath["/fhir/".Length..];
        Asked.Add($"{request.Method} {path}");
        if (Always is { } always)
        {
            return new HttpResponseMessage(always);
        }

        var id = path.Split('/') is [_, var named] ? named : "";
        var body = request.Content is null ? null : JsonNode.Parse(await request.Content.ReadAsStringAsync(cancellationToken))!;
        return (request.Method.Method, id) switch
        {
            ("GET", "") => Json(HttpStatusCode.OK, new JsonObject
            {
                ["resourceType"] = "Bundle",
                ["entry"] = new JsonArray([.. Stored.Values.Select(one => new JsonObject { ["resource"] = one.DeepClone() })]),
            }),
            ("GET", _) => Stored.TryGetValue(id, out var found) ? Json(HttpStatusCode.OK, found) : new HttpResponseMessage(HttpStatusCode.NotFound),
            ("POST", _) => Store((_next++).ToString(CultureInfo.InvariantCulture), body!, HttpStatusCode.Created),
            ("PUT", _) => MayWriteOver && Stored.ContainsKey(id) ? Store(id, body!, HttpStatusCode.OK) : new HttpResponseMessage(HttpStatusCode.NotFound),
            _ => new HttpResponseMessage(Stored.Remove(id) ? HttpStatusCode.NoContent : HttpStatusCode.NotFound),
        };
    }

    private HttpResponseMessage Store(string id, JsonNode body, HttpStatusCode status)
    {
        body["id"] = id;
        body["status"] = body["status"]!.GetValue<string>() == "requested" ? Becomes : body["status"]!.GetValue<string>();
        Stored[id] = body;
        return Json(status, body);
    }

    private static HttpResponseMessage Json(HttpStatusCode status, JsonNode body) =>
        new(status) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/fhir+json") };
}
