using System.Net;
using System.Net.Http.Headers;
using System.Text;
using AirwayGuard.Host.Service;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class OwnDoorsTests
{
    [Theory]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("LOCALHOST:8480", HttpStatusCode.OK)]
    [InlineData("127.0.0.1", HttpStatusCode.OK)]
    [InlineData("127.8.9.10", HttpStatusCode.OK)]
    [InlineData("[::1]:8480", HttpStatusCode.OK)]
    [InlineData("ward.example.org", HttpStatusCode.OK)]
    [InlineData("notices.example.org:444", HttpStatusCode.OK)]
    [InlineData("rebound.example.net", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost.example.net", HttpStatusCode.MisdirectedRequest)]
    [InlineData("127.0.0.1.example.net", HttpStatusCode.MisdirectedRequest)]
    [InlineData("192.0.2.7", HttpStatusCode.MisdirectedRequest)]
    public async Task TheHostHeader_MustBeLoopbackOrConfigured(string host, HttpStatusCode expected)
    {
        await using var service = await GivenService.StartAsync("AirwayGuard:AllowedHosts:0=ward.example.org", "AirwayGuard:NotifyAddress=https://notices.example.org/");

        foreach (var path in (string[])["/", "/health/live", "/metrics"])
        {
            using var answer = await service.GetAsync(path, ("Host", host));
            Assert.Equal(expected, answer.StatusCode);
        }
    }

    [Fact]
    public async Task ARefusal_HasACodeAndSaysWhatToDo()
    {
        await using var service = await GivenService.StartAsync();
        using var answer = await service.GetAsync("/", ("Host", "rebound.example.net"));
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Contains("\"diagnostics\":\"AG1006  ", text, StringComparison.Ordinal);
        Assert.Contains("AirwayGuard:AllowedHosts", text, StringComparison.Ordinal);
        Assert.DoesNotContain("rebound", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ANotice_FromAPageOfAnotherOrigin_IsNotTaken()
    {
        await using var service = await Knowing();

        using var foreign = await Notify(service, null, ("Origin", "http://ward.example.net"));
        using var own = await Notify(service, null, ("Origin", service.Root));

        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
        Assert.Equal(HttpStatusCode.Accepted, own.StatusCode);
    }

    [Theory]
    [InlineData("application/fhir+json", HttpStatusCode.Accepted)]
    [InlineData("application/json; charset=utf-8", HttpStatusCode.Accepted)]
    [InlineData("text/plain", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/x-www-form-urlencoded", HttpStatusCode.UnsupportedMediaType)]
    public async Task ANoticeWithABody_NeedsFhirOrJson(string type, HttpStatusCode expected)
    {
        await using var service = await Knowing();
        var body = new ByteArrayContent(Encoding.UTF8.GetBytes("{}"));
        body.Headers.ContentType = MediaTypeHeaderValue.Parse(type);

        using var answer = await Notify(service, body);

        Assert.Equal(expected, answer.StatusCode);
    }

    [Theory]
    [InlineData(1_000_000, HttpStatusCode.Accepted)]
    [InlineData(1_000_001, HttpStatusCode.RequestEntityTooLarge)]
    public async Task ANotice_MayHaveOneMegabyte(int bytes, HttpStatusCode expected)
    {
        await using var service = await Knowing();
        var body = new ByteArrayContent(new byte[bytes]);
        body.Headers.ContentType = new MediaTypeHeaderValue("application/json");

        using var answer = await Notify(service, body, ("Expect", "100-continue"));

        Assert.Equal(expected, answer.StatusCode);
    }

    [Fact]
    public async Task ANotice_NeedsItsToken()
    {
        await using var service = await Knowing();

        using var stranger = await service.SendAsync(HttpMethod.Post, "/notify/Observation-1", null, ("Authorization", "Bearer guessed"));
        using var known = await service.SendAsync(HttpMethod.Put, "/notify/Observation-1/Observation/o1", null, ("Authorization", "Bearer invented"));

        Assert.Equal(HttpStatusCode.Unauthorized, stranger.StatusCode);
        Assert.Equal(HttpStatusCode.Accepted, known.StatusCode);
        Assert.True(service.Services.GetRequiredService<NoticeBoard>().Take("Observation-1"));
    }

    [Theory]
    [InlineData("GET", "/nothing-there", 404, "AG1015", null)]
    [InlineData("GET", "/fhir/Patient/7", 404, "AG1015", null)]
    [InlineData("GET", "/notify", 404, "AG1015", null)]
    [InlineData("GET", "/notify/Observation-1", 405, "AG1016", "POST")]
    [InlineData("TRACE", "/", 405, "AG1016", "GET")]
    [InlineData("DELETE", "/metrics", 405, "AG1016", "GET")]
    [InlineData("POST", "/notify/nobody", 401, "AG1017", null)]
    public async Task WhatIsNotServed_IsAnOutcomeWithACode(string method, string path, int status, string code, string? allow)
    {
        await using var service = await GivenService.StartAsync();
        using var answer = await service.SendAsync(new HttpMethod(method), path, null);
        var outcome = System.Text.Json.Nodes.JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;

        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal(allow, answer.Content.Headers.Allow.SingleOrDefault());
        Assert.Equal("application/fhir+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("OperationOutcome", (string?)outcome["resourceType"]);
        Assert.StartsWith(code + "  ", (string?)outcome["issue"]![0]!["diagnostics"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/health/live")]
    [InlineData("/metrics")]
    [InlineData("/nothing-there")]
    public async Task EveryAnswer_IsGuardedAgainstBeingUsedByOtherPages(string path)
    {
        await using var service = await GivenService.StartAsync();
        using var answer = await service.GetAsync(path);

        Assert.Equal(WardPage.Policy, answer.Headers.GetValues("Content-Security-Policy").Single());
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Equal("no-referrer", answer.Headers.GetValues("Referrer-Policy").Single());
        Assert.Equal("same-origin", answer.Headers.GetValues("Cross-Origin-Resource-Policy").Single());
        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.DoesNotContain("unsafe", WardPage.Policy, StringComparison.Ordinal);
        Assert.DoesNotContain("script-src", WardPage.Policy, StringComparison.Ordinal);
        Assert.StartsWith("default-src 'none'", WardPage.Policy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("demo", HttpStatusCode.OK)]
    [InlineData("AirwayGuard:Mode=silent", HttpStatusCode.NotFound)]
    public async Task TheSandbox_IsThereInTheDemoOnly(string setting, HttpStatusCode expected)
    {
        await using var service = await GivenService.StartAsync(setting);
        using var answer = await service.GetAsync("/fhir/metadata");

        Assert.Equal(expected, answer.StatusCode);
    }

    private static async Task<GivenService> Knowing()
    {
        var service = await GivenService.StartAsync();
        service.Services.GetRequiredService<NotifyDoor>().Open("Observation-1", "Observation-1", "invented");
        return service;
    }

    private static Task<HttpResponseMessage> Notify(GivenService service, HttpContent? body, params (string Name, string Value)[] headers) =>
        service.SendAsync(HttpMethod.Post, "/notify/Observation-1", body, [("Authorization", "Bearer invented"), .. headers]);
}
