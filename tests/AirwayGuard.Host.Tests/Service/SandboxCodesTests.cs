using System.Net;
using System.Net.Http.Headers;
using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Host.Service;
using AirwayGuard.Sandbox;
using Xunit;

namespace AirwayGuard.Host.Tests.Service;

public sealed class SandboxCodesTests
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    [Fact]
    public void EveryFaultOfTheSandbox_HasACodeOfItsOwn()
    {
        var words = Enum.GetValues<SandboxFault>().Select(SandboxCodes.Of).ToList();

        Assert.Equal(words.Count, words.Select(one => one.Code).Distinct(StringComparer.Ordinal).Count());
        Assert.All(words, one => Assert.StartsWith("AG7", one.Code, StringComparison.Ordinal));
        Assert.Single(words, one => one.Code == Codes.DemoRuleBroken.Id);
    }

    [Theory]
    [InlineData("2026-03-01T09:00:00", "AG7011  Observation.effective: A time of day has no zone offset. Write a day as ")]
    [InlineData("2026-13-01T09:00:00Z", "AG7011  Observation.effective: A date or time is not written as FHIR writes it, or there is no such day or time. Write a day as ")]
    public async Task TheDemo_SaysByCodeWhatWasWrongWhereAndWhatToDo(string time, string said)
    {
        await using var service = await GivenService.StartAsync("demo");
        using var body = new StringContent($$"""{"resourceType":"Observation","status":"final","code":{"text":"x"},"effectiveDateTime":"{{time}}"}""", Encoding.UTF8);
        body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");

        using var answer = await service.SendAsync(HttpMethod.Post, "/fhir/Observation", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(said, await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
    }
}
