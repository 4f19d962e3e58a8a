using System.Globalization;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>A server whose pages always name one more (design: nothing lost, and nothing silently).</summary>
public sealed class EndlessPagesTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;
    private readonly Listening<SweepStep> _log = new();
    private IntakeBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public ValueTask DisposeAsync() => _bench.DisposeAsync();

    [Fact]
    public async Task Pages_that_bring_nothing_new_and_always_name_a_fresh_next_one_are_left_told_and_move_no_cursor()
    {
        var source = Endless(static _ => [SourceFake.Row("1", "1", Morning), SourceFake.Row("2", "1", Morning)]);
        var sweep = _bench.Sweep(source, logger: _log);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(PageChain.MostBarren + 1, source.Asked.Count(asked => asked.Query == "rows"));
        Assert.Equal((2, (DateTimeOffset?)null, (DateTimeOffset?)null), (sweep.Kept, await _bench.CursorAsync("rows"), await _bench.FirstSweepAsync()));
        Assert.Equal([("rows", "AG4019")], _bench.Health.Standing);
        Assert.Equal((LogLevel.Warning, "AG4019 in the sweep of rows: Pages without end"), Assert.Single(_log.Said));
    }

    [Fact]
    public async Task Empty_pages_without_end_are_left_too_and_the_other_questions_are_asked()
    {
        var source = Endless(static _ => []);
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal(PageChain.MostBarren, source.Asked.Count(asked => asked.Query == "rows"));
        Assert.Equal(Morning, await _bench.CursorAsync("other"));
    }

    [Fact]
    public async Task Pages_that_go_round_over_the_same_rows_are_left()
    {
        var source = Endless(static page => [SourceFake.Row($"{page % 20}", "1", Morning)]);
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal(PageChain.MostBarren + 20, source.Asked.Count(asked => asked.Query == "rows"));
    }

    [Fact]
    public async Task Once_the_pages_have_an_end_again_the_cursor_moves_and_nothing_stands()
    {
        var source = Endless(static _ => [SourceFake.Row("1", "1", Morning)]);
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        source.Answer = _ => SourceFake.Page(Morning.AddMinutes(5), SourceFake.Row("1", "1", Morning), SourceFake.Row("2", "1", Morning));
        _bench.Turn(300);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((2, Morning.AddMinutes(5)), (sweep.Kept, await _bench.CursorAsync("rows")));
        Assert.Empty(_bench.Health.Standing);
    }

    // What was left out here is new all the same: a server that does not keep to the codes shows long stretches of what nobody asked for.
    [Fact]
    public async Task Pages_of_which_everything_is_left_out_here_are_read_on()
    {
        var pages = 0;
        var source = new SourceFake("rows")
        {
            Answer = _ => ++pages > 3 * PageChain.MostBarren
                ? SourceFake.Page(Morning, SourceFake.Row("wanted", "1", Morning))
                : SourceFake.Page(Morning) with { Next = $"{pages}", LeftOut = [SourceFake.Row($"{pages}", "1", Morning)] },
        };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal((1, Morning), (sweep.Kept, await _bench.CursorAsync("rows")));
    }

    [Fact]
    public async Task A_sweep_of_which_the_ledger_knows_every_row_is_read_to_its_end()
    {
        var source = new SourceFake("rows");
        source.Answer = asked => int.TryParse(asked.Next, CultureInfo.InvariantCulture, out var page) && page == 3 * PageChain.MostBarren
            ? SourceFake.Page(Morning)
            : SourceFake.Page(Morning, SourceFake.Row($"{page}", "1", Morning)) with { Next = $"{page + 1}" };
        await IntakeBench.SettleAsync(_bench.Sweep(source));
        await _bench.RestartAsync();
        _bench.Turn(300);
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Empty(_bench.Health.Standing);
    }

    // A back-fill of nine million rows has 18,000 pages of 500, and 450,000 of 20.
    [Fact]
    public void However_new_what_they_bring_a_million_pages_are_the_most_of_one_question()
    {
        var chain = new PageChain();
        var page = SourceFake.Page(Morning) with { Next = "next" };
        var pages = 1;
        while (pages <= PageChain.MostPages && chain.Bounded("rows", page with { LeftOut = [Bare(pages)] }).Next is not null)
        {
            pages++;
        }

        Assert.Equal(1_000_000, pages);
    }

    private static SourceFake Endless(Func<int, Arrival[]> rows)
    {
        var pages = 0;
        return new SourceFake("rows", "other")
        {
            Answer = asked => asked.Query == "other" ? SourceFake.Page(Morning) : SourceFake.Page(Morning, rows(pages)) with { Next = $"page {++pages}" },
        };
    }

    private static Arrival Bare(int number) => new(ArrivalKind.Resource, "", "Observation", $"{number}", "1", Morning, KnownBy.ServersStamp, default);
}
