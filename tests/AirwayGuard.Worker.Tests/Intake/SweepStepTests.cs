using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Judging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>What is asked from when, and how far the cursor goes (design: nothing lost, nothing doubled).</summary>
public sealed class SweepStepTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;
    private IntakeBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public ValueTask DisposeAsync() => _bench.DisposeAsync();

    [Fact]
    public async Task The_first_sweep_asks_everything_from_the_beginning_in_order_and_only_then_lets_judging_begin()
    {
        var source = new SourceFake("Patient", "rows", "Flag");
        var sweep = _bench.Sweep(source);
        await sweep.StepAsync(Stop);
        await sweep.StepAsync(Stop);
        var before = await _bench.FirstSweepAsync();
        await IntakeBench.SettleAsync(sweep);

        Assert.Null(before);
        Assert.Equal([new("Patient", null, null), new("rows", null, null), new SourceQuestion("Flag", null, null)], source.Asked);
        Assert.Equal(Morning, await _bench.FirstSweepAsync());
        Assert.True(sweep.FirstSweepDone);
    }

    [Fact]
    public async Task The_cursor_is_the_servers_time_of_the_first_page_and_moves_with_the_last()
    {
        var source = new SourceFake("rows")
        {
            Answer = asked => asked.Next is null
                ? SourceFake.Page(Morning, SourceFake.Row("1", "1", Morning)) with { Next = "2" }
                : SourceFake.Page(Morning.AddSeconds(9), SourceFake.Row("2", "1", Morning)),
        };
        var sweep = _bench.Sweep(source);
        await sweep.StepAsync(Stop);
        var between = await _bench.CursorAsync("rows");
        await sweep.StepAsync(Stop);

        Assert.Null(between);
        Assert.Equal(Morning, await _bench.CursorAsync("rows"));
        Assert.Equal(2, sweep.Kept);
    }

    [Fact]
    public async Task After_a_stop_between_two_pages_the_sweep_begins_where_its_cursor_stands()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(Morning, SourceFake.Row("1", "1", Morning)) with { Next = "2" } };
        await _bench.Sweep(source).StepAsync(Stop);
        await _bench.RestartAsync();
        source.Answer = _ => SourceFake.Page(Morning.AddMinutes(1), SourceFake.Row("1", "1", Morning), SourceFake.Row("2", "1", Morning));
        var again = _bench.Sweep(source);
        await IntakeBench.SettleAsync(again);

        Assert.Equal(new SourceQuestion("rows", null, null), source.Asked[1]);
        Assert.Equal((1, Morning.AddMinutes(1)), (again.Kept, await _bench.CursorAsync("rows")));
        Assert.Equal([120, 120], await _bench.ReadingsAsync());
    }

    [Fact]
    public async Task A_quick_sweep_asks_from_the_cursor_and_a_wide_one_looks_back_the_overlap()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow()) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(29);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count;
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(270);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(1, early);
        Assert.Equal([null, Morning, Morning.AddSeconds(-300)], source.Asked.Select(asked => asked.Since));
    }

    [Fact]
    public async Task A_row_that_was_hidden_until_it_was_committed_is_found_by_the_wide_sweep()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow()) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        var hidden = SourceFake.Row("1", "1", Morning.AddSeconds(-200));
        source.Answer = asked => asked.Since <= hidden.KnownAt ? SourceFake.Page(_bench.Clock.GetUtcNow(), hidden) : SourceFake.Page(_bench.Clock.GetUtcNow());
        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);
        var quick = sweep.Kept;
        _bench.Turn(270);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((0, 1), (quick, sweep.Kept));
    }

    [Fact]
    public async Task A_row_hidden_when_the_last_wide_sweep_looked_is_found_by_the_next_though_quick_ones_have_moved_the_cursor()
    {
        var (rows, hidden) = (0, SourceFake.Row("hidden", "1", Morning.AddSeconds(-100)));
        var source = new SourceFake("rows");
        source.Answer = asked => asked.Since <= hidden.KnownAt ? SourceFake.Page(_bench.Clock.GetUtcNow(), hidden)
            : SourceFake.Page(_bench.Clock.GetUtcNow(), SourceFake.Row($"{++rows}", "1", _bench.Clock.GetUtcNow()));
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        for (var quick = 0; quick < 9; quick++)
        {
            _bench.Turn(30);
            await IntakeBench.SettleAsync(sweep);
        }

        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(Morning.AddSeconds(-300), source.Asked[^1].Since);
        Assert.Equal(rows + 1, sweep.Kept);
    }

    [Fact]
    public async Task A_server_whose_clock_was_set_back_while_nobody_looked_is_asked_from_as_much_earlier()
    {
        var ahead = TimeSpan.Zero;
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow() + ahead) };
        await IntakeBench.SettleAsync(_bench.Sweep(source));
        await _bench.RestartAsync();
        ahead = TimeSpan.FromMinutes(-10);
        _bench.Turn(1_800);
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal([null, Morning.AddMinutes(-5), Morning.AddMinutes(-15)], source.Asked.Select(asked => asked.Since));
    }

    // A request that is tried again for as long as the clock was set back must not make the two look alike.
    [Fact]
    public async Task A_clock_set_back_is_told_by_the_time_of_the_answer_however_long_the_asking_took()
    {
        var (ahead, takes) = (TimeSpan.Zero, 0);
        var source = new SourceFake("rows")
        {
            Answer = _ =>
            {
                _bench.Turn(takes);
                return SourceFake.Page(_bench.Clock.GetUtcNow() + ahead);
            },
        };
        await IntakeBench.SettleAsync(_bench.Sweep(source));
        await _bench.RestartAsync();
        (ahead, takes) = (TimeSpan.FromMinutes(-10), 600);
        _bench.Turn(1_800);
        var sweep = _bench.Sweep(source);
        await sweep.StepAsync(TestContext.Current.CancellationToken);
        await sweep.StepAsync(TestContext.Current.CancellationToken);

        Assert.Equal([null, Morning.AddMinutes(-5), Morning.AddMinutes(-15)], source.Asked.Select(asked => asked.Since));
    }

    [Fact]
    public async Task What_is_found_again_in_the_overlap_changes_nothing()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow(), SourceFake.Row("1", "1", Morning)) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        var before = await _bench.Ledger.StateAsync(Stop);
        _bench.Turn(300);
        await IntakeBench.SettleAsync(sweep);
        var after = await _bench.Ledger.StateAsync(Stop);

        Assert.Equal(2, source.Asked.Count);
        Assert.Equal((before.Newest, before.Arrivals, 1L), (after.Newest, after.Arrivals, sweep.Kept));
    }

    [Fact]
    public async Task Trouble_on_a_later_page_leaves_the_cursor_and_the_question_is_asked_from_it_again()
    {
        var source = new SourceFake("rows", "other");
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        source.Answer = asked => asked.Query == "other" ? SourceFake.Page(Morning.AddMinutes(9))
            : asked.Next is null ? SourceFake.Page(Morning.AddMinutes(9), SourceFake.Row("1", "1", Morning)) with { Next = "2" }
            : SourceFake.Trouble(Codes.SweepRefused);
        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);
        var cursor = await _bench.CursorAsync("rows");
        _bench.Turn(5);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((Morning, Morning.AddMinutes(9)), (cursor, await _bench.CursorAsync("other")));
        Assert.Equal(new SourceQuestion("rows", Morning, null), source.Asked[5]);
        Assert.Equal([("rows", "AG4001")], _bench.Health.Standing);
    }

    [Fact]
    public async Task Trouble_is_told_for_as_long_as_it_lasts()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Trouble(Codes.SweepNotBundle) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        var during = _bench.Health.Standing;
        source.Answer = _ => SourceFake.Page(Morning);
        _bench.Turn(5);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal([("server", "AG4002"), ("server", "AG4017")], during);
        Assert.Empty(_bench.Health.Standing);
    }

    [Theory]
    [InlineData(-60)]
    [InlineData(60)]
    public async Task With_two_clocks_apart_the_cursor_keeps_to_the_servers(int minutes)
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow().AddMinutes(minutes)) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal([null, Morning.AddMinutes(minutes)], source.Asked.Select(asked => asked.Since));
    }

    [Fact]
    public async Task A_server_whose_clock_steps_back_a_little_moves_no_cursor_back()
    {
        var source = new SourceFake("rows");
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        source.Answer = _ => SourceFake.Page(Morning.AddSeconds(-300), SourceFake.Row("1", "1", Morning));
        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(Morning, await _bench.CursorAsync("rows"));
    }

    [Fact]
    public async Task A_server_whose_clock_was_set_back_by_more_than_the_overlap_is_followed()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(Morning.AddDays(1)) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        source.Answer = _ => SourceFake.Page(Morning.AddMinutes(1));
        _bench.Turn(30);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(Morning.AddMinutes(1), await _bench.CursorAsync("rows"));
    }

    [Fact]
    public async Task What_the_server_does_not_offer_holds_up_neither_the_others_nor_the_first_judging()
    {
        var source = new SourceFake("odd", "rows") { Answer = asked => asked.Query == "odd" ? SourceFake.Trouble(Codes.SweepRefused, isOffered: false) : SourceFake.Page(Morning) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(299);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count(asked => asked.Query == "odd");
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(Morning, await _bench.FirstSweepAsync());
        Assert.Equal((1, 2), (early, source.Asked.Count(asked => asked.Query == "odd")));
        Assert.Null(await _bench.CursorAsync("odd"));
    }

    [Fact]
    public async Task A_page_after_which_something_may_be_left_out_is_kept_and_moves_no_cursor()
    {
        var source = new SourceFake("rows")
        {
            Answer = _ => SourceFake.Page(Morning, SourceFake.Row("1", "1", Morning)) with { IsComplete = false, Remarks = [new Problem(Codes.PageCut, "rows", "x")] },
        };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((1, (DateTimeOffset?)null, (DateTimeOffset?)null), (sweep.Kept, await _bench.CursorAsync("rows"), await _bench.FirstSweepAsync()));
        Assert.Equal([("rows", "AG4009")], _bench.Health.Standing);
    }

    [Fact]
    public async Task A_question_of_which_everything_is_read_each_time_is_asked_with_the_wide_sweep_only()
    {
        var source = new SourceFake("rows") { Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow()) with { IsWhole = true, Remarks = [new Problem(Codes.SweepNotHonoured, "rows", "x")] } };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Board.Pull("rows");
        _bench.Turn(299);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count;
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(1, early);
        Assert.InRange(source.Asked.Count, 2, 3);
        Assert.Equal([("rows", "AG4007")], _bench.Health.Standing);
    }

    [Fact]
    public async Task A_row_that_cannot_be_read_is_parked_and_the_rows_beside_it_are_kept()
    {
        var source = new SourceFake("rows")
        {
            Answer = _ => SourceFake.Page(Morning, SourceFake.Unreadable("1", Morning), SourceFake.Row("2", "1", Morning)) with
            {
                Unusable = [new Problem(Codes.EntryEmpty, "rows#entry 3", "x")],
            },
        };
        await IntakeBench.SettleAsync(_bench.Sweep(source));
        await _bench.RestartAsync();
        var parked = await _bench.Ledger.ParkedAsync(Stop);

        Assert.Equal([120], await _bench.ReadingsAsync());
        Assert.Equal([(null, "AG2302", "rows"), (1, "AG2003", "Observation")], parked.Select(item => (item.Arrival?.Value, item.Code, item.Where)));
    }

    [Fact]
    public async Task A_question_about_newly_mapped_codes_is_asked_from_the_beginning_and_the_old_one_no_more()
    {
        var source = new SourceFake("rows-1", "Flag");
        await IntakeBench.SettleAsync(_bench.Sweep(source));
        await _bench.RestartAsync();
        _bench.Turn(60);
        var mapped = new SourceFake("rows-2", "Flag") { Answer = _ => SourceFake.Page(Morning.AddMinutes(1), SourceFake.Row("1", "1", Morning.AddDays(-9))) };
        await IntakeBench.SettleAsync(_bench.Sweep(mapped));

        Assert.Equal([new("rows-2", null, null), new SourceQuestion("Flag", Morning.AddMinutes(-5), null)], mapped.Asked);
        Assert.Equal(Morning, await _bench.FirstSweepAsync());
        Assert.Equal([120], await _bench.ReadingsAsync());
    }

    [Fact]
    public async Task Where_asking_takes_longer_than_the_time_between_sweeps_every_question_has_its_turn()
    {
        var source = new SourceFake("a", "b", "c");
        source.Answer = _ =>
        {
            _bench.Turn(400);
            return SourceFake.Page(_bench.Clock.GetUtcNow());
        };
        var sweep = _bench.Sweep(source);
        for (var i = 0; i < 6; i++)
        {
            await sweep.StepAsync(Stop);
        }

        Assert.Equal(["a", "b", "c", "a", "b", "c"], source.Asked.Select(asked => asked.Query), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_server_that_asks_to_be_left_alone_is_left_alone_by_every_question_up_to_the_bound()
    {
        var source = new SourceFake("rows", "other") { Answer = _ => SourceFake.Trouble(Codes.SweepRefused, TimeSpan.FromHours(1)) };
        _bench.Options.LongestWaitSeconds = 600;
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Turn(599);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count;
        _bench.Turn(1);
        await sweep.StepAsync(Stop);

        Assert.Equal((1, 2), (early, source.Asked.Count));
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;
}
