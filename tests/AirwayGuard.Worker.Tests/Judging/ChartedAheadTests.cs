using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Tests.LifeCycle;
using Xunit;

namespace AirwayGuard.Worker.Tests.Judging;

/// <summary>A row dated later than now, by a clock that runs ahead or by a slip, hides and ends nothing before its time comes.</summary>
public sealed class ChartedAheadTests : IAsyncLifetime
{
    private PipelineBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = await PipelineBench.StartAsync(Ward.Morning);
        await _bench.PutAsync(Ward.Patient);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task ACompliantReadingAhead_HidesNoBreachOfNow_AndClearsItWhenItsTimeComes()
    {
        await _bench.PutAsync(Ward.Vacuum("ahead", 100, 60));
        await _bench.PutAsync(Ward.Vacuum("now", 180, 10));
        await _bench.RoundAsync(TimeSpan.FromMinutes(15));
        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());

        await _bench.RoundAsync(TimeSpan.FromMinutes(46));
        await _bench.UntilIdleAsync(() => _bench.Due);
        await _bench.UntilIdleAsync(() => _bench.Judge);
        await _bench.RoundAsync();

        Assert.Equal("inactive", Assert.Single(await _bench.FlagsAsync()).Status());
    }

    [Fact]
    public async Task ACompliantReadingAhead_EndsNothingThatStands()
    {
        await _bench.PutAsync(Ward.Vacuum("now", 180, 10));
        await _bench.RoundAsync(TimeSpan.FromMinutes(15));

        await _bench.PutAsync(Ward.Vacuum("ahead", 100, 24 * 60));
        await _bench.RoundAsync();

        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.NotNull(await _bench.Ledger.NextDueAsync(Stop));
    }

    [Fact]
    public async Task ABreachAhead_IsFoundWhenItsTimeComes()
    {
        await _bench.PutAsync(Ward.Vacuum("ahead", 180, 60));
        await _bench.RoundAsync(TimeSpan.FromMinutes(15));
        Assert.Empty(await _bench.FlagsAsync());

        _bench.Clock.Now = (await _bench.Ledger.NextDueAsync(Stop))!.Value;
        await _bench.UntilIdleAsync(() => _bench.Due);
        await _bench.UntilIdleAsync(() => _bench.Judge);
        await _bench.RoundAsync();

        Assert.Equal("active", Assert.Single(await _bench.FlagsAsync()).Status());
        Assert.Equal(FindingState.Open, (await _bench.FindingsAsync()).Single(record => record.Kind == FindingKind.Spell).State);
    }
}
