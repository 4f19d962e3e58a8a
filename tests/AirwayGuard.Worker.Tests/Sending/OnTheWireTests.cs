using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Tests.LifeCycle;
using Xunit;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>In which order things are written, and what a lost answer leaves behind.</summary>
public sealed class OnTheWireTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning.AddHours(1));
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Ward.Vacuum("o1", 220, 10));
        await _bench.SweepAsync();
        await _bench.UntilIdleAsync(() => _bench.Judge);
        _bench.Wire.Written.Clear();
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task TheIssueIsWrittenBeforeTheFlagThatNamesIt_EachWithItsProvenance()
    {
        await _bench.UntilIdleAsync(() => _bench.Send);

        Assert.Equal(["DetectedIssue", "Provenance", "Flag", "Provenance"], _bench.Wire.Written.Select(one => one.Split(' ')[1]).Where(type => type != "Device"), StringComparer.Ordinal);
        var (issue, flag) = (Assert.Single(await _bench.IssuesAsync()), Assert.Single(await _bench.FlagsAsync()));
        Assert.Contains(flag["extension"]!.AsArray(), one => (string?)one!["valueReference"]?["reference"] == issue.Name());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AnAnswerLostAfterTheServerHadWritten_IsReadBack_AlsoByTheNextProcess(bool restarts)
    {
        var lost = 0;
        _bench.Wire.Fault = async (request, pass) =>
        {
            if (request.RequestUri!.AbsolutePath.Contains("/DetectedIssue", StringComparison.Ordinal) && lost < 2)
            {
                lost++;
                (await pass()).Dispose();
                throw new HttpRequestException("lost");
            }

            return await pass();
        };
        Assert.Equal(StepResult.BackOff, await _bench.Send.StepAsync(Stop));
        Assert.Equal(1, (await _bench.Ledger.StateAsync(Stop)).Unknown);
        if (restarts)
        {
            await _bench.RestartAsync();
        }

        _bench.Clock.Now += TimeSpan.FromMinutes(1);
        await _bench.UntilIdleAsync(() => _bench.Send);

        var issue = Assert.Single(await _bench.IssuesAsync());
        Assert.Equal((2, "1"), (lost, issue.Version()));
        Assert.Equal(["CREATE 1: Observation/o1/_history/1"], await _bench.ProvenancesAsync(issue), StringComparer.Ordinal);
        Assert.Equal(0, (await _bench.Ledger.StateAsync(Stop)).Unknown);
        await _bench.NothingIsDoubledAsync();
    }
}
