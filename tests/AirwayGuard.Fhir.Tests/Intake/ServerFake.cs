using System.Net;
using System.Text;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using Microsoft.Extensions.Time.Testing;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>A server that answers as one line of a test says, and keeps what it was asked.</summary>
internal sealed class ServerFake : HttpMessageHandler
{
    public const string Address = "https://ehr.example.org/fhir/";
    public static readonly DateTimeOffset Morning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private readonly HttpClient _http;

    public ServerFake(Func<string, HttpResponseMessage> answer)
    {
        Answer = answer;
        _http = new HttpClient(this, disposeHandler: false);
    }

    public FakeTimeProvider Clock { get; } = new(Morning);

    /// <summary>Gets method, path and query below the base, unescaped, and the body after a blank.</summary>
    public Func<string, HttpResponseMessage> Answer { get; set; }

    public List<string> Asked { get; } = [];

    public FhirArrivalSource Source(int pageSize, params SweepQuery[] queries) => new(_http, new FhirGate(new Uri(Address), []), queries, pageSize, Clock);

    public SubscriptionClient Subscriptions() => new(_http, new FhirGate(new Uri(Address), []));

    public static HttpResponseMessage Json(string body, HttpStatusCode status = HttpStatusCode.OK) =>
        new(status) { Content = new StringContent(body, Encoding.UTF8, "application/fhir+json") };

    /// <summary>A searchset at <see cref="Morning"/> whose self link is the question itself.</summary>
    public static HttpResponseMessage Bundle(string self, params string[] entries) => Json(Searchset(Link("self", self), "", entries));

    public static string Searchset(string links, string more, params string[] entries) =>
        $$"""{"resourceType":"Bundle","type":"searchset",{{more}}"meta":{"lastUpdated":"2026-03-02T08:00:00Z"},"link":[{{links}}],"entry":[{{string.Join(',', entries)}}]}""";

    public static string Link(string relation, string url) => $$"""{"relation":"{{relation}}","url":"{{(url.Contains("://", StringComparison.Ordinal) ? url : Address + url)}}"}""";

    /// <param name="at">Seconds after <see cref="Morning"/> of meta.lastUpdated.</param>
    public static string Row(string id, double at = 0, string system = "urn:s", string code = "a", string version = "1") =>
        $$$"""{"resource":{"resourceType":"Observation","id":"{{{id}}}","meta":{"versionId":"{{{version}}}","lastUpdated":"{{{Morning.AddSeconds(at):yyyy-MM-ddTHH:mm:ss.fffffffZ}}}"},"status":"final","code":{"coding":[{"system":"{{{system}}}","code":"{{{code}}}"}]} } }""";

    public static IEnumerable<string?> Ids(SourcePage page) => page.Arrivals.Select(arrival => arrival.Id);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var body = request.Content is null ? "" : " " + await request.Content.ReadAsStringAsync(cancellationToken);
        var asked = $"{request.Method} {Uri.UnescapeDataString(request.RequestUri!.AbsoluteUri[Address.Length..])}";
        Asked.Add(asked);
        return Answer(asked + body);
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _http.Dispose();
        }

        base.Dispose(disposing);
    }
}
