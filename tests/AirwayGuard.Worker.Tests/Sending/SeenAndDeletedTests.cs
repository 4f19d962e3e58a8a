using System.Net;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Tests.LifeCycle;
using Xunit;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>
/// The answer to a create was lost and nothing of it could be written or read by its place for a while; meanwhile a sweep saw what was made,
/// and a person deleted it. It is not made a second time.
/// </summary>
public sealed class SeenAndDeletedTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        _bench.SendOptions.MaxAttempts = 20;
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Theory]
    [InlineData("Flag", false)]
    [InlineData("Flag", true)]
    [InlineData("DetectedIssue", false)]
    [InlineData("DetectedIssue", true)]
    public async Task WhatASweepSaw_IsNotMadeAgainAfterAPersonDeletedIt(string type, bool restarts)
    {
        _bench.RestartsBetween = restarts;
        FailWritesOf(type);
        await _bench.RoundAsync();
        await _bench.RoundAsync();
        await _bench.DeleteAsync(Assert.Single(await _bench.AllAsync(type)).Name());

        _bench.Wire.Fault = null;
        await _bench.RoundAsync();
        await _bench.RoundAsync();

        Assert.Empty(await _bench.AllAsync(type));
        Assert.Equal((0, 0), await WaitingAsync());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AFlagThatAPersonClosedAndDeleted_IsNotRaisedAgain(bool restarts)
    {
        _bench.RestartsBetween = restarts;
        FailWritesOf("Flag");
        await _bench.RoundAsync();
        var flag = Assert.Single(await _bench.AllAsync("Flag"));
        flag["status"] = "inactive";
        await _bench.PutAsync(flag.ToJsonString());
        await _bench.RoundAsync();
        Assert.Contains(await _bench.FindingsAsync(), record => record is { Kind: FindingKind.Spell, State: FindingState.ClosedByPerson });
        await _bench.DeleteAsync(flag.Name());

        _bench.Wire.Fault = null;
        await _bench.RoundAsync();
        await _bench.RoundAsync();

        Assert.Empty(await _bench.AllAsync("Flag"));
        Assert.Equal((0, 0), await WaitingAsync());
    }

    [Fact]
    public async Task WhatWasSeenAndStands_IsReadBackAndGetsTheProvenanceOfItsMaking()
    {
        FailWritesOf("DetectedIssue");
        await _bench.RoundAsync();
        await _bench.RoundAsync();

        _bench.Wire.Fault = null;
        await _bench.RoundAsync();

        Assert.Equal(["CREATE 1: Observation/o1/_history/1"], await _bench.ProvenancesAsync(Assert.Single(await _bench.AllAsync("DetectedIssue"))), StringComparer.Ordinal);
    }

    [Fact]
    public async Task WhatTheAnswerToACreateNamed_IsKnownAsMade_ThoughTheLookAfterItFailed()
    {
        _bench.Wire.Fault = (request, pass) => request.Method == HttpMethod.Get && IsOf(request, "DetectedIssue") && request.RequestUri!.Query.Contains("identifier", StringComparison.Ordinal)
            ? Task.FromResult(Busy(request)) : pass();
        await _bench.RoundAsync();
        await _bench.DeleteAsync(Assert.Single(await _bench.AllAsync("DetectedIssue")).Name());

        _bench.Wire.Fault = null;
        await _bench.UntilIdleAsync(() => _bench.Send);
        await _bench.RoundAsync();

        Assert.Empty(await _bench.AllAsync("DetectedIssue"));
    }

    // What is created is there, and nobody hears of it; sweeps are answered.
    private void FailWritesOf(string type) => _bench.Wire.Fault = async (request, pass) =>
    {
        if (!IsOf(request, type) || (request.Method == HttpMethod.Get && !IsByPlaceOrKey(request, type)))
        {
            return await pass();
        }

        if (request.Method == HttpMethod.Post)
        {
            (await pass()).Dispose();
        }

        return Busy(request);
    };

    private static bool IsOf(HttpRequestMessage request, string type) => request.RequestUri!.AbsolutePath.Contains("/" + type, StringComparison.Ordinal);

    private static bool IsByPlaceOrKey(HttpRequestMessage request, string type) =>
        request.RequestUri!.AbsolutePath.Contains($"/{type}/", StringComparison.Ordinal) || request.RequestUri.Query.Contains("identifier", StringComparison.Ordinal);

    private static HttpResponseMessage Busy(HttpRequestMessage request) => new(HttpStatusCode.ServiceUnavailable) { RequestMessage = request };

    private async Task<(long Pending, long Unknown)> WaitingAsync()
    {
        var state = await _bench.Ledger.StateAsync(TestContext.Current.CancellationToken);
        return (state.Pending, state.Unknown);
    }
}
