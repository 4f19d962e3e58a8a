using AirwayGuard.Worker.Intake;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>Notices pull quick sweeps forward: never lost, never more often than the gap, never behind a long sweep.</summary>
public sealed class NoticeSweepTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;
    private IntakeBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public ValueTask DisposeAsync() => _bench.DisposeAsync();

    [Fact]
    public async Task A_notice_is_followed_by_a_quick_sweep_from_the_cursor_of_its_question_alone()
    {
        var (source, sweep) = await SweptAsync("rows", "other");
        _bench.Turn(1);
        _bench.Board.Pull("rows");
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(new SourceQuestion("rows", Morning, null), Assert.Single(source.Asked));
    }

    [Fact]
    public async Task However_many_notices_come_there_is_a_gap_between_two_sweeps_and_the_last_notice_has_its_own()
    {
        _bench.Options.NoticeGapSeconds = 3;
        var (source, sweep) = await SweptAsync("rows");
        _bench.Turn(3);
        for (var i = 0; i < 60; i++)
        {
            _bench.Board.Pull("rows");
            await IntakeBench.SettleAsync(sweep);
            _bench.Turn(0.1);
        }

        var during = source.Asked.Count;
        _bench.Turn(3);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((2, 3), (during, source.Asked.Count));
        Assert.False(_bench.Board.IsAsked);
    }

    [Fact]
    public async Task A_notice_during_its_own_sweep_gives_one_more()
    {
        var (source, sweep) = await SweptAsync("rows");
        _bench.Turn(1);
        source.Answer = asked =>
        {
            if (source.Asked.Count == 1)
            {
                _bench.Board.Pull("rows");
                _bench.Board.Pull("rows");
            }

            return SourceFake.Page(Morning.AddSeconds(source.Asked.Count));
        };
        _bench.Board.Pull("rows");
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(2, source.Asked.Count);
    }

    [Fact]
    public async Task A_notice_does_not_wait_behind_a_long_sweep_of_another_question()
    {
        await SweptAsync("rows");
        await _bench.RestartAsync();
        var source = new SourceFake("rows", "new") { Answer = asked => asked.Query == "new" ? SourceFake.Page(Morning) with { Next = "more" } : SourceFake.Page(Morning) };
        var sweep = _bench.Sweep(source);
        await StepAsync(sweep, 3);
        _bench.Turn(1);
        _bench.Board.Pull("rows");
        await StepAsync(sweep, 2);

        Assert.Equal(["rows", "new", "new", "rows", "new"], source.Asked.Select(asked => asked.Query), StringComparer.Ordinal);
        Assert.Equal(new SourceQuestion("rows", Morning, null), source.Asked[3]);
        Assert.Equal(new SourceQuestion("new", null, "more"), source.Asked[4]);
    }

    [Fact]
    public async Task Notices_without_end_do_not_keep_a_long_sweep_from_its_end()
    {
        _bench.Options.NoticeGapSeconds = 0;
        await SweptAsync("rows");
        await _bench.RestartAsync();
        var pages = 0;
        var source = new SourceFake("rows", "new");
        source.Answer = asked =>
        {
            _bench.Board.Pull("rows");
            return asked.Query == "new" && ++pages < 5 ? SourceFake.Page(Morning) with { Next = "more" } : SourceFake.Page(Morning);
        };
        var sweep = _bench.Sweep(source);
        await StepAsync(sweep, 12);

        Assert.True(sweep.FirstSweepDone);
        Assert.Equal(5, pages);
    }

    [Fact]
    public async Task The_cursor_of_a_quick_sweep_is_not_set_back_by_a_longer_one_that_began_before_it()
    {
        var (source, sweep) = await SweptAsync("rows");
        source.Answer = asked => asked.Next is not null ? SourceFake.Page(Morning.AddMinutes(9))
            : asked.Since < Morning ? SourceFake.Page(Morning.AddMinutes(5)) with { Next = "more" }
            : SourceFake.Page(Morning.AddMinutes(6), SourceFake.Row("1", "1", Morning));
        _bench.Turn(300);
        await StepAsync(sweep, 1);
        _bench.Turn(1);
        _bench.Board.Pull("rows");
        await StepAsync(sweep, 1);
        var quick = await _bench.CursorAsync("rows");
        await StepAsync(sweep, 1);

        Assert.Equal((Morning.AddMinutes(6), Morning.AddMinutes(6)), (quick, await _bench.CursorAsync("rows")));
    }

    [Fact]
    public async Task A_notice_that_met_trouble_is_asked_again_when_the_wait_is_over()
    {
        var (source, sweep) = await SweptAsync("rows");
        source.Answer = _ => SourceFake.Trouble(Codes.SweepRefused);
        _bench.Turn(1);
        _bench.Board.Pull("rows");
        await IntakeBench.SettleAsync(sweep);
        source.Answer = _ => SourceFake.Page(Morning.AddMinutes(1));
        _bench.Turn(4);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count;
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((1, 2), (early, source.Asked.Count));
    }

    [Fact]
    public async Task A_notice_wakes_who_waits_also_where_it_came_before_the_wait()
    {
        _bench.Board.Pull("rows");
        await _bench.Board.WaitAsync(TimeSpan.FromSeconds(30), Stop);

        Assert.True(_bench.Board.Has("rows"));
        Assert.True(_bench.Board.Take("rows"));
        Assert.False(_bench.Board.Has("rows"));
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static async Task StepAsync(SweepStep step, int times)
    {
        for (var i = 0; i < times; i++)
        {
            Assert.Equal(StepResult.DidWork, await step.StepAsync(Stop));
        }
    }

    /// <summary>A sweep whose first round is over, and a source that has forgotten it.</summary>
    private async Task<(SourceFake Source, Worker.Intake.SweepStep Sweep)> SweptAsync(params string[] types)
    {
        var source = new SourceFake(types);
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        source.Asked.Clear();
        return (source, sweep);
    }
}
