using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Intake;
using Microsoft.Extensions.Time.Testing;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;

namespace AirwayGuard.Fhir.Tests.Intake;

/// <summary>One answer to a sweep, as servers and the things before them really give it, over loopback.</summary>
public sealed class MalformedAnswerTests : IDisposable
{
    private const string Good = """{"resource":{"resourceType":"Observation","id":"good","meta":{"versionId":"1","lastUpdated":"2026-03-02T08:00:00Z"},"status":"final"}}""";

    private readonly WireMockServer _server = WireMockServer.Start();
    private readonly HttpClient _http = new();

    public void Dispose()
    {
        _http.Dispose();
        _server.Dispose();
    }

    [Theory]
    [InlineData("<html><body>Please sign in</body></html>", "text/html")]
    [InlineData("{\"resourceType\":\"Bundle\",\"type\":\"searchset\",\"entry\":[{\"resource\":{\"resourceType\":\"Obser", "application/fhir+json")]
    [InlineData("The server is being updated.", "text/plain")]
    [InlineData("", "application/fhir+json")]
    [InlineData("[]", "application/fhir+json")]
    [InlineData("{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\",\"code\":\"exception\"}]}", "application/fhir+json")]
    [InlineData("{\"resourceType\":7}", "application/fhir+json")]
    [InlineData("{\"resourceType\":\"Bundle\",\"link\":[{\"relation\":\"next\",\"url\":\"\\ud800\"}]}", "application/fhir+json")]
    public async Task A_200_that_is_no_Bundle_is_trouble_and_holds_nothing(string body, string type)
    {
        var page = await AskAsync(200, body, type);

        Assert.Equal("AG4002", page.Problem!.Code.Id);
        Assert.Empty(page.Arrivals);
        Assert.Null(page.ServerTime);
        Assert.True(page.IsOffered);
    }

    [Theory]
    [InlineData(404, "Unknown resource type", "text/plain", false)]
    [InlineData(400, "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\"}]}", "application/fhir+json", false)]
    [InlineData(410, "{\"resourceType\":\"OperationOutcome\"}", "application/fhir+json", true)]
    [InlineData(401, "<html/>", "text/html", true)]
    [InlineData(429, "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\",\"code\":\"throttled\"}]}", "application/fhir+json", true)]
    [InlineData(500, "", "text/plain", true)]
    [InlineData(302, "", "text/plain", true)]
    public async Task A_refusal_in_whatever_form_is_trouble_and_only_what_is_not_offered_is_put_off(int status, string body, string type, bool isOffered)
    {
        var page = await AskAsync(status, body, type);

        Assert.Equal(("AG4001", $"HTTP {status}", isOffered), (page.Problem!.Code.Id, page.Problem.Why, page.IsOffered));
        Assert.Empty(page.Arrivals);
        Assert.Null(page.RetryAfter);
    }

    [Theory]
    [InlineData("")]
    [InlineData(",\"entry\":[]")]
    [InlineData(",\"link\":[{\"relation\":\"self\"},7],\"total\":0")]
    public async Task A_Bundle_without_an_entry_is_an_end(string more)
    {
        var page = await AskAsync(200, $$"""{"resourceType":"Bundle","type":"searchset","meta":{"lastUpdated":"2026-03-02T08:00:01Z"}{{more}}}""", "application/fhir+json");

        Assert.Null(page.Problem);
        Assert.Empty(page.Arrivals);
        Assert.Null(page.Next);
        Assert.True(page.IsComplete);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 8, 0, 1, TimeSpan.Zero), page.ServerTime);
    }

    [Theory]
    [InlineData("{\"fullUrl\":\"urn:x\"}", "AG2302")]
    [InlineData("{\"resource\":null}", "AG2302")]
    [InlineData("7", "AG2302")]
    [InlineData("{\"resource\":{\"resourceType\":\"Bundle\",\"type\":\"collection\"}}", "AG2301")]
    public async Task An_entry_that_holds_nothing_that_can_be_kept_is_told_and_the_good_one_beside_it_kept(string bad, string code)
    {
        var page = await AskAsync(200, Bundle(Good, bad), "application/fhir+json");

        Assert.Equal("good", Assert.Single(page.Arrivals).Id);
        Assert.Equal(code, Assert.Single(page.Unusable).Code.Id);
    }

    [Theory]
    [InlineData("{\"resource\":{\"id\":\"bad\"}}")]
    [InlineData("{\"resource\":{\"resourceType\":\"Observation\",\"id\":\"bad\",\"status\":[1],\"code\":\"x\"}}")]
    [InlineData("{\"resource\":{\"resourceType\":\"Observatoin\",\"id\":\"bad\"}}")]
    public async Task A_bad_resource_among_good_ones_arrives_as_it_is_and_hides_none(string bad)
    {
        var page = await AskAsync(200, Bundle(bad, Good), "application/fhir+json");

        Assert.Equal(["bad", "good"], page.Arrivals.Select(arrival => arrival.Id), StringComparer.Ordinal);
        Assert.Empty(page.Unusable);
    }

    [Theory]
    [InlineData(",\"search\":{\"mode\":\"outcome\"}")]
    [InlineData("")]
    public async Task An_OperationOutcome_among_the_entries_is_no_arrival_whether_or_not_it_is_marked(string search)
    {
        var outcome = $$"""{"resource":{"resourceType":"OperationOutcome","id":"o","issue":[{"severity":"warning","code":"processing"}]}{{search}}}""";
        var page = await AskAsync(200, Bundle(outcome, Good), "application/fhir+json");

        Assert.Equal("good", Assert.Single(page.Arrivals).Id);
        Assert.Empty(page.Unusable);
    }

    // Parked rather than dropped: the codes could not be looked at, here since the server does not say what it was asked.
    [Fact]
    public async Task A_row_with_a_code_in_no_Unicode_passes_the_sieve()
    {
        const string bad = """{"resource":{"resourceType":"Observation","id":"bad","code":{"coding":[{"system":"\ud800","code":"a"}]}}}""";
        var page = await AskAsync(200, Bundle(bad, Good), "application/fhir+json", new SweepCode("urn:s", "a"));

        Assert.Equal("bad", Assert.Single(page.Arrivals).Id);
    }

    [Fact]
    public async Task A_byte_order_mark_before_the_Bundle_does_not_matter()
    {
        var page = await AskAsync(200, "\uFEFF" + Bundle(Good), "application/fhir+json");

        Assert.Equal("good", Assert.Single(page.Arrivals).Id);
    }

    [Fact]
    public async Task Nobody_listening_is_trouble_and_no_exception()
    {
        var source = Source();
        _server.Stop();

        var problem = (await source.PageAsync("rows", null, null, TestContext.Current.CancellationToken)).Problem!;
        Assert.Equal(("AG4001", "ConnectionRefused"), (problem.Code.Id, problem.Why));
    }

    private static string Bundle(params string[] entries) =>
        $$"""{"resourceType":"Bundle","type":"searchset","meta":{"lastUpdated":"2026-03-02T08:00:01Z"},"entry":[{{string.Join(',', entries)}}]}""";

    private FhirArrivalSource Source(params SweepCode[] codes) =>
        new(_http, new FhirGate(new Uri(_server.Url + "/fhir"), []), [new SweepQuery("rows", "Observation", codes)], 100, new FakeTimeProvider(ServerFake.Morning));

    private async Task<SourcePage> AskAsync(int status, string body, string type, params SweepCode[] codes)
    {
        _server.Given(Request.Create()).RespondWith(Response.Create().WithStatusCode(status).WithHeader("Content-Type", type).WithBody(body));
        return await Source(codes).PageAsync("rows", ServerFake.Morning, null, TestContext.Current.CancellationToken);
    }
}
