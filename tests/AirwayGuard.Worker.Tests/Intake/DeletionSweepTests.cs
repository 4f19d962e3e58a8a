using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Judging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Intake;

/// <summary>What was deleted on the server counts as never charted.</summary>
public sealed class DeletionSweepTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Morning = IntakeBench.Morning;
    private IntakeBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await IntakeBench.OpenAsync();

    public ValueTask DisposeAsync() => _bench.DisposeAsync();

    [Fact]
    public async Task A_row_deleted_on_the_server_stands_no_more_and_its_patient_is_judged_again()
    {
        var source = new SourceFake("rows")
        {
            Deletions = ["deleted"],
            Answer = asked => asked.Query == "rows" ? SourceFake.Page(Morning, SourceFake.Row("1", "1", Morning), SourceFake.Row("2", "1", Morning, 90)) : SourceFake.Page(Morning),
        };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        var before = await _bench.ReadingsAsync();
        while (await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), Morning, Stop) is { } work)
        {
            await _bench.Ledger.DecideAsync(new Decision(work.Patient, work.UpTo, Morning.UtcTicks, work.Fence, "b", [], [], [], []), Stop);
        }

        source.Answer = asked => asked.Query == "deleted" ? SourceFake.Page(Morning.AddMinutes(5), SourceFake.Deletion("1", "2", Morning.AddMinutes(2))) : SourceFake.Page(Morning.AddMinutes(5));
        _bench.Turn(300);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal([90, 120], before.Order());
        Assert.Equal([90], await _bench.ReadingsAsync());
        Assert.Equal(1, (await _bench.Ledger.StateAsync(Stop)).PatientsWaiting);
    }

    [Fact]
    public async Task Deletions_are_asked_from_when_the_server_was_first_asked_and_with_the_wide_sweep_only()
    {
        var source = new SourceFake("rows") { Deletions = ["deleted"], Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow()) };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);
        _bench.Board.Pull("deleted");
        _bench.Turn(299);
        await IntakeBench.SettleAsync(sweep);
        var early = source.Asked.Count(asked => asked.Query == "deleted");
        _bench.Turn(1);
        await IntakeBench.SettleAsync(sweep);

        Assert.Equal(1, early);
        Assert.Equal([Morning.AddSeconds(-300), Morning.AddSeconds(-300)], source.Asked.Where(asked => asked.Query == "deleted").Select(asked => asked.Since));
        Assert.Equal(Morning.AddSeconds(300), await _bench.CursorAsync("deleted"));
    }

    [Fact]
    public async Task A_ledger_from_before_deletions_were_asked_for_asks_from_its_first_sweep_on()
    {
        await _bench.Ledger.KeepAsync([], new SweepCursor(JudgeStep.FirstSweep, Morning.AddDays(-30), null), Stop);
        var source = new SourceFake("rows") { Deletions = ["deleted"] };
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal(new SourceQuestion("deleted", Morning.AddDays(-30).AddSeconds(-300), null), source.Asked[^1]);
    }

    [Fact]
    public async Task Before_the_server_has_answered_once_there_is_nothing_to_delete()
    {
        var source = new SourceFake("rows") { Deletions = ["deleted"], Answer = _ => SourceFake.Trouble(Codes.SweepRefused) };
        await IntakeBench.SettleAsync(_bench.Sweep(source));

        Assert.Equal(["rows"], source.Asked.Select(asked => asked.Query), StringComparer.Ordinal);
    }

    [Fact]
    public async Task A_server_that_does_not_tell_deletions_is_said_so_and_holds_up_nothing()
    {
        var source = new SourceFake("rows")
        {
            Deletions = ["deleted"],
            Answer = asked => asked.Query == "deleted" ? SourceFake.Trouble(Codes.DeletionsNotSeen, isOffered: false) : SourceFake.Page(Morning),
        };
        var sweep = _bench.Sweep(source);
        await IntakeBench.SettleAsync(sweep);

        Assert.True(sweep.FirstSweepDone);
        Assert.Equal([("deleted", "AG4010")], _bench.Health.Standing);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;
}
