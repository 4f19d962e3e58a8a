using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>From where a question is asked as long as nobody knows that it was ever asked to its end.</summary>
public sealed class FirstSweepTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;
    private IntakeBench _bench = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public ValueTask DisposeAsync() => _bench.DisposeAsync();

    [Fact]
    public async Task A_server_that_refuses_everything_was_not_asked_and_what_it_refused_then_is_asked_again_before_judging()
    {
        var source = new SourceFake("Patient", "Procedure", "Observation-1") { Answer = _ => SourceFake.Trouble(Codes.SweepRefused, isOffered: false) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        Assert.False(sweep.FirstSweepDone);

        // The door opens; the procedures take longest.
        source.Answer = asked => asked.Query == "Procedure" ? SourceFake.Trouble(Codes.NoAnswer) : SourceFake.Page(Morning);
        _bench.Turn(_bench.Options.WideSeconds + 1);
        await IntakeBench.SettleAsync(sweep);
        Assert.False(sweep.FirstSweepDone);
        Assert.Null(await _bench.FirstSweepAsync());

        source.Answer = _ => SourceFake.Page(Morning);
        _bench.Turn(_bench.Options.WideSeconds + 1);
        await IntakeBench.SettleAsync(sweep);
        Assert.True(sweep.FirstSweepDone);
    }

    [Fact]
    public async Task A_wide_sweep_that_was_never_noted_begins_from_nothing_though_quick_ones_moved_the_cursor()
    {
        var source = new SourceFake("rows");
        await _bench.Ledger.KeepAsync([], new SweepCursor("sweep:rows", Morning, null), Stop);
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal([new SourceQuestion("rows", null, null)], source.Asked);
    }

    [Fact]
    public async Task A_wide_sweep_that_was_told_of_more_than_it_saw_is_asked_once_more_from_where_it_began()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(Morning) with { IsDoubted = true } };
        var sweep = _bench.Sweep(source);
        foreach (var _ in Enumerable.Range(0, 3))
        {
            await IntakeBench.SettleAsync(sweep);
            _bench.Turn(_bench.Options.WideSeconds + 1);
        }

        Assert.Equal([true, true, false], source.Asked.Where(asked => asked.Since is null || asked.Since < Morning).Take(3).Select(asked => asked.Since is null));
    }
}
