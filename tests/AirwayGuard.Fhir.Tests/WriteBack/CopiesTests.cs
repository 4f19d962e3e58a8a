using System.Net;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.Fhir.Tests.WriteBack;

/// <summary>Servers whose conditional create lets two through at once: one resource stands in the end.</summary>
public sealed class CopiesTests : IDisposable
{
    private readonly SinkBench _bench = new();

    public void Dispose() => _bench.Dispose();

    [Fact]
    public async Task OfTwoOfOurs_TheOlderIsKept_AndTheOtherIsEnteredInError()
    {
        await WithCopyAsync("older", "2026-01-01T00:00:00Z");
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Confirmed, "older", false), (answer.State, answer.Server!.Id, answer.ChangedByPerson));
        Assert.Equal(["entered-in-error", "final"], Statuses());
        Assert.Equal("final", StatusOf("older"));
        // Each version of ours has its Provenance: the one made, the same taken back, and the one taken over.
        Assert.Equal(3, _bench.Server.All("Provenance").Select(one => one["target"]![0]!["reference"]!.GetValue<string>()).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public async Task ACopyMadeInTheSameMoment_IsMetAfterTheCreate()
    {
        _bench.Server.Once(HttpMethod.Post, "DetectedIssue", HttpStatusCode.InternalServerError, apply: true);
        _bench.Server.Once(request => request.Method == HttpMethod.Get && request.RequestUri!.AbsolutePath.EndsWith("/DetectedIssue", StringComparison.Ordinal), () => new HttpResponseMessage(HttpStatusCode.BadGateway));
        await _bench.SendAsync(Some.Issue);
        Copy("copy", "2099-01-01T00:00:00Z");
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal(SendState.Confirmed, answer.State);
        Assert.Equal("entered-in-error", StatusOf("copy"));
        Assert.Equal(["entered-in-error", "final"], Statuses());
    }

    [Fact]
    public async Task ACopyThatAPersonWorkedOn_IsTheOneThatStays()
    {
        await WithCopyAsync("worked-on", "2099-01-01T00:00:00Z", copy => copy["severity"] = "low");
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal(("worked-on", true), (answer.Server!.Id, answer.ChangedByPerson));
        Assert.Equal("final", StatusOf("worked-on"));
        Assert.Equal(["entered-in-error", "final"], Statuses());
    }

    [Fact]
    public async Task OneThatWasOnlyMet_GivesWayToACopyThatAPersonWorkedOn()
    {
        await WithCopyAsync("worked-on", "2099-01-01T00:00:00Z", copy => copy["severity"] = "low");
        _bench.Meet(Some.Issue.Key, _bench.Server.All("DetectedIssue").Select(one => one["id"]!.GetValue<string>()).Single(id => id != "worked-on"));

        await _bench.SendAsync(Some.Issue);

        Assert.Equal("final", StatusOf("worked-on"));
        Assert.Equal(["entered-in-error", "final"], Statuses());
    }

    [Fact]
    public async Task ACopyTheServerDoesNotLetBeEnteredInError_IsParked()
    {
        await WithCopyAsync("older", "2026-01-01T00:00:00Z");
        _bench.Server.Once(HttpMethod.Put, "DetectedIssue", HttpStatusCode.Forbidden);
        var answer = await _bench.SendAsync(Some.Issue);

        Assert.Equal((SendState.Parked, "AG5201"), (answer.State, answer.Code));
    }

    [Fact]
    public async Task AfterItsClaimRanOut_NothingIsWritten()
    {
        await _bench.SendAsync(Some.Issue);
        _bench.Until = _bench.Clock.GetUtcNow();
        var (amended, raised) = (await _bench.SendAsync(Some.Amended), await _bench.SendAsync(Some.Flag));

        Assert.Equal(((SendState.Unknown, "AG5208"), (SendState.Unknown, "AG5208")), ((amended.State, amended.Code), (raised.State, raised.Code)));
        Assert.Equal("final", _bench.Server.Only("DetectedIssue")["status"]!.GetValue<string>());
        Assert.Empty(_bench.Server.All("Flag"));
        Assert.Single(_bench.Server.All("Provenance"));
    }

    private async Task WithCopyAsync(string id, string lastUpdated, Action<JsonObject>? change = null)
    {
        await _bench.SendAsync(Some.Issue);
        Copy(id, lastUpdated, change);
        _bench.Forget();
    }

    private void Copy(string id, string lastUpdated, Action<JsonObject>? change = null)
    {
        var standing = _bench.Server.Only("DetectedIssue");
        standing["meta"]!["lastUpdated"] = "2026-06-01T00:00:00Z";
        var copy = standing.DeepClone().AsObject();
        (copy["id"], copy["meta"]!["lastUpdated"]) = (id, lastUpdated);
        copy["meta"]!.AsObject().Remove("versionId");
        change?.Invoke(copy);
        _bench.Server.Put(copy.ToJsonString());
    }

    private string[] Statuses() => [.. _bench.Server.All("DetectedIssue").Select(one => one["status"]!.GetValue<string>()).Order(StringComparer.Ordinal)];

    private string StatusOf(string id) => _bench.Server.All("DetectedIssue").Single(one => one["id"]!.GetValue<string>() == id)["status"]!.GetValue<string>();
}
