using AirwayGuard.Core.Ports;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.Judging;

/// <summary>What waits for something missing falls due once, at its time, also over a restart.</summary>
public sealed class DueStepTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        // A pass at 08:10 without pre-oxygenation charted: the check waits two hours for it.
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
        await _bench.PutAsync(Ward.Pass("s1", 8, 10));
        await _bench.RoundAsync(TimeSpan.FromMinutes(15));
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task NothingFallsDueBeforeItsTime()
    {
        var due = (await _bench.Ledger.NextDueAsync(Stop))!.Value;
        Assert.True(due > _bench.Clock.Now);

        _bench.Clock.Now = due.AddTicks(-1);

        Assert.Equal(StepResult.Idle, await _bench.Due.StepAsync(Stop));
        Assert.Empty(await MissingAsync());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ItFallsDueOnceAtItsTime_AlsoAfterARestart(bool restarts)
    {
        _bench.Clock.Now = (await _bench.Ledger.NextDueAsync(Stop))!.Value;
        if (restarts)
        {
            await _bench.RestartAsync();
        }

        Assert.Equal(StepResult.DidWork, await _bench.Due.StepAsync(Stop));
        if (restarts)
        {
            await _bench.RestartAsync();
        }

        Assert.Equal(StepResult.Idle, await _bench.Due.StepAsync(Stop));
        Assert.Equal(1, (await _bench.Ledger.StateAsync(Stop)).PatientsWaiting);
        Assert.Single(await _bench.AuditAsync("due"));
        await _bench.UntilIdleAsync(() => _bench.Judge);
        Assert.Single(await MissingAsync());
        Assert.Null(await _bench.Ledger.NextDueAsync(Stop));
    }

    private async Task<IEnumerable<Core.Findings.FindingRecord>> MissingAsync() =>
        (await _bench.FindingsAsync()).Where(record => record.Check == "preoxygenation-missing");
}
