using AirwayGuard.Fhir.Client;
using AirwayGuard.Fhir.Tests.WriteBack;
using Hl7.Fhir.Model;
using Microsoft.Extensions.Time.Testing;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;
using Xunit;

namespace AirwayGuard.Fhir.Tests.Client;

/// <summary>What servers and the things before them really answer, over loopback.</summary>
public sealed class FhirHttpTests : IDisposable
{
    private readonly WireMockServer _server = WireMockServer.Start();
    private readonly HttpClient _client = new();

    public void Dispose()
    {
        _client.Dispose();
        _server.Dispose();
    }

    [Theory]
    [InlineData("<html><body>Please sign in</body></html>", "text/html", "AG5110")]
    [InlineData("  <!DOCTYPE html>", "application/fhir+json", "AG5110")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"1\",\"sta", "application/fhir+json", "AG5111")]
    [InlineData("OK", "text/plain", "AG5110")]
    [InlineData("", "application/fhir+json", "AG5110")]
    [InlineData("[]", "application/fhir+json", "AG5110")]
    public async System.Threading.Tasks.Task A200ThatIsNoFhir_IsUnclear(string body, string type, string code)
    {
        Answer(200, body, type);
        var answer = await Http().ReadAsync("Flag", "1", Stop);

        Assert.Equal((FhirReply.Unclear, code), (answer.Reply, answer.Code!.Id));
        Assert.Null(answer.Resource);
    }

    // The SDK's getters throw on these: whoever uses an answer must be able to trust it.
    [Theory]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":5}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":[\"a\"]}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"a\",\"_meta\":[{\"versionId\":\"1\"}]}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"a\",\"identifier\":{\"system\":\"urn:a\"}}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"a\",\"identifier\":[null]}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"a\",\"identifier\":[{\"system\":[\"urn:a\"]}]}")]
    [InlineData("{\"resourceType\":\"DetectedIssue\",\"id\":\"a\",\"mitigation\":null}")]
    [InlineData("{\"resourceType\":\"urn:uuid:\",\"id\":[\"a\"]}")]
    [InlineData("{\"resourceType\":\"Bundle\",\"entry\":[{\"resource\":[{\"resourceType\":\"Flag\"}]}]}")]
    [InlineData("{\"resourceType\":\"Bundle\",\"entry\":[{\"resource\":{\"resourceType\":\"Flag\",\"id\":\"a\",\"identifier\":[null]}}]}")]
    public async System.Threading.Tasks.Task AnElementOfAWrongForm_MakesTheAnswerUnclear(string body)
    {
        Answer(200, body, "application/fhir+json");

        var read = await Http().ReadAsync("Flag", "1", Stop);
        var found = await Http().FindAsync("Flag", "urn:a", "b", Stop);

        Assert.Equal((FhirReply.Unclear, "AG5110"), (read.Reply, read.Code?.Id));
        Assert.Equal((FhirReply.Unclear, "AG5110"), (found.Answer.Reply, found.Answer.Code?.Id));
        Assert.Empty(found.Found);
    }

    [Theory]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"1\",\"unheardOf\":[null],\"status\":\"odd\",\"language\":null}")]
    [InlineData("{\"resourceType\":\"Flag\",\"id\":\"1\",\"contained\":[{\"resourceType\":\"Unheard\",\"a\":[null]},{\"resourceType\":\"Patient\",\"name\":[{\"given\":[null,\"A\"],\"_given\":[{\"id\":\"x\"},null]}]}]}")]
    public async System.Threading.Tasks.Task WhatR4DoesNotKnowOrAllowsOfNulls_MakesNoAnswerUnclear(string body)
    {
        Answer(200, body, "application/fhir+json");

        Assert.Equal((FhirReply.Done, "1"), ((await Http().ReadAsync("Flag", "1", Stop)).Reply, (await Http().ReadAsync("Flag", "1", Stop)).Id));
    }

    [Fact]
    public async System.Threading.Tasks.Task ALoginPageInAnswerToAWrite_IsUnclear()
    {
        Answer(200, "<html/>", "text/html");

        Assert.Equal(FhirReply.Unclear, (await Http().CreateAsync(new Flag(), Stop)).Reply);
    }

    [Theory]
    [InlineData(500, "java.lang.NullPointerException at …", FhirReply.TryLater)]
    [InlineData(412, "{\"resourceType\":\"OperationOutcome\",\"issue\":[{\"severity\":\"error\",\"code\":\"conflict\",\"diagnostics\":\"about a patient\"}]}", FhirReply.Conflict)]
    [InlineData(404, "", FhirReply.NotFound)]
    [InlineData(410, "", FhirReply.Gone)]
    [InlineData(401, "<html/>", FhirReply.NotSignedIn)]
    public async System.Threading.Tasks.Task AFailure_KeepsItsStatusAndAtMostTheCodeOfItsOutcome(int status, string body, FhirReply reply)
    {
        Answer(status, body, "application/fhir+json");
        var answer = await Http().ReadAsync("Flag", "1", Stop);

        Assert.Equal((reply, status), (answer.Reply, answer.Status));
        Assert.Equal(status == 412 ? "conflict" : null, answer.Outcome);
        Assert.DoesNotContain("patient", answer.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Flag/f1", null, "f1", null)]
    [InlineData("Flag/f1/_history/7", null, "f1", "7")]
    [InlineData("{base}/Flag/f1/_history/7", "W/\"8\"", "f1", "8")]
    [InlineData("{base}/Flag/f1", "\"8\"", "f1", "8")]
    [InlineData("https://evil.example/fhir/Flag/f1", "W/\"8\"", null, "8")]
    [InlineData(null, null, null, null)]
    public async System.Threading.Tasks.Task IdAndVersion_AreReadFromLocationAndTagInEveryForm(string? location, string? tag, string? id, string? version)
    {
        var response = Response.Create().WithStatusCode(201);
        response = location is null ? response : response.WithHeader("Location", location.Replace("{base}", _server.Url + "/fhir", StringComparison.Ordinal));
        response = tag is null ? response : response.WithHeader("ETag", tag);
        _server.Given(Request.Create().UsingPost()).RespondWith(response);
        var answer = await Http().CreateOnceAsync(new Flag(), "urn:s", "v 1", Stop);

        Assert.Equal((id, version), (answer.Id, answer.Version));
        var header = _server.LogEntries.Single().RequestMessage!.Headers!["If-None-Exist"].Single();
        Assert.Equal("identifier=urn%3As%7Cv%201", header);
    }

    [Fact]
    public async System.Threading.Tasks.Task TheBodysVersion_GoesBeforeATagThatAProxyChanged()
    {
        _server.Given(Request.Create()).RespondWith(Response.Create().WithHeader("ETag", "\"3-gzip\"")
            .WithBody("{\"resourceType\":\"Flag\",\"id\":\"1\",\"meta\":{\"versionId\":\"3\"},\"status\":\"closed\"}"));
        var answer = await Http().ReadAsync("Flag", "1", Stop);

        Assert.Equal("3", answer.Version);
        Assert.Equal("closed", ((Flag)answer.Resource!).StatusElement!.JsonValue);
    }

    [Fact]
    public async System.Threading.Tasks.Task ARetryAfter_IsReadInSecondsAndAsADate()
    {
        _server.Given(Request.Create()).InScenario("busy").WillSetStateTo("date").RespondWith(Response.Create().WithStatusCode(429).WithHeader("Retry-After", "90"));
        _server.Given(Request.Create()).InScenario("busy").WhenStateIs("date").RespondWith(
            Response.Create().WithStatusCode(503).WithHeader("Retry-After", Some.Noon.AddMinutes(4).ToUniversalTime().ToString("R")));
        var http = Http();

        Assert.Equal(TimeSpan.FromSeconds(90), (await http.ReadAsync("Flag", "1", Stop)).RetryAfter);
        Assert.Equal(TimeSpan.FromMinutes(4), (await http.ReadAsync("Flag", "1", Stop)).RetryAfter);
    }

    [Fact]
    public async System.Threading.Tasks.Task NobodyListening_IsUnclearAndNoException()
    {
        var http = Http();
        _server.Stop();

        Assert.Equal((FhirReply.Unclear, "AG5109"), ((await http.ReadAsync("Flag", "1", Stop)) is var answer ? (answer.Reply, answer.Code!.Id) : default));
    }

    [Fact]
    public async System.Threading.Tasks.Task ANextLinkElsewhere_IsNotFollowed()
    {
        var answer = await Http().PageAsync("https://evil.example/fhir?page=2", Stop);

        Assert.Equal((FhirReply.Outside, "AG5101"), (answer.Reply, answer.Code!.Id));
        Assert.Empty(_server.LogEntries);
    }

    [Fact]
    public async System.Threading.Tasks.Task ASearch_TakesOnlyEntriesOfTheTypeThatCarryTheIdentifier()
    {
        Answer(200, """
            {"resourceType":"Bundle","type":"searchset","entry":[
             {"resource":{"resourceType":"OperationOutcome","id":"o","issue":[{"severity":"warning","code":"processing"}]},"search":{"mode":"outcome"}},
             {"resource":{"resourceType":"Flag","id":"other","identifier":[{"system":"urn:s","value":"w"}]}},
             {"resource":{"resourceType":"Flag","id":"ours","identifier":[{"system":"urn:s","value":"V"}]}}]}
            """, "application/fhir+json");
        var matches = await Http().FindAsync("Flag", "urn:s", "v", Stop);

        Assert.Equal("ours", Assert.Single(matches.Found).Id);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private FhirHttp Http() => new(_client, new FhirGate(new Uri(_server.Url + "/fhir"), []), new FakeTimeProvider(Some.Noon));

    private void Answer(int status, string body, string type) =>
        _server.Given(Request.Create()).RespondWith(Response.Create().WithStatusCode(status).WithHeader("Content-Type", type).WithBody(body));
}
