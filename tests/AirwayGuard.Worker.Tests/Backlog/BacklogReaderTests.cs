using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Tests.Intake;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Backlog;

/// <summary>How far behind the service says it is after an outage, and how long it says catching up takes.</summary>
public sealed class BacklogReaderTests : IAsyncLifetime
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    private readonly SourceFake _source = new("rows");
    private readonly Paces _paces = new();
    private IntakeBench _bench = null!;
    private SweepStep _sweep = null!;

    public async ValueTask InitializeAsync()
    {
        _bench = await IntakeBench.OpenAsync();
        _sweep = _bench.Sweep(_source, _paces.Reading);
        _source.Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow());
        await IntakeBench.SettleAsync(_sweep);
    }

    public async ValueTask DisposeAsync() => await _bench.DisposeAsync();

    [Fact]
    public async Task WithNothingToDo_ItIsNotBehind()
    {
        var backlog = await ReadAsync();

        Assert.Equal(new BacklogState(TimeSpan.Zero, false, 0, 0, TimeSpan.Zero, false), backlog);
    }

    [Fact]
    public async Task WhileTheServerDoesNotAnswer_ItSaysHowFarBehindItIs_AndThatNobodyKnowsHowLongItTakes()
    {
        await OutageAsync();

        var backlog = await ReadAsync();

        Assert.Equal((TimeSpan.FromHours(8), true, null, false), (backlog.Behind, backlog.IsBehind, backlog.Remaining, backlog.IsAtLeast));
        Assert.Equal("8 h 0 min behind, 0 charts wait to be judged; how long catching up takes is not known yet", BacklogWords.Of(backlog));
    }

    // A short one, in which nothing is old yet: nobody knows when it ends.
    [Fact]
    public async Task WhileTheServerDoesNotAnswer_NobodyKnowsHowLongCatchingUpTakes_HoweverLittleItIs()
    {
        var contact = new ServerContact(_bench.Health, _bench.Options);
        var reader = new BacklogReader(_bench.Ledger, ["rows"], _paces, static () => true, _bench.Options, _bench.Clock, contact);
        _bench.Turn(seconds: 60);
        contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", ""), ["rows"], false, _bench.Clock.GetUtcNow());

        Assert.Equal((TimeSpan.FromSeconds(60), null), ((await reader.ReadAsync(Stop)).Behind, (await reader.ReadAsync(Stop)).Remaining));
        contact.Answered(_bench.Clock.GetUtcNow());
        Assert.Equal(TimeSpan.Zero, (await reader.ReadAsync(Stop)).Remaining);
    }

    [Fact]
    public async Task BeforeEverythingWasEverRead_ItDoesNotSayThatItIsNotBehind()
    {
        await using var bench = await IntakeBench.OpenAsync();
        await bench.Ledger.KeepAsync([], new SweepCursor("sweep:rows", bench.Clock.GetUtcNow(), null), Stop);

        var backlog = await new BacklogReader(bench.Ledger, ["rows", "others"], _paces, static () => true, bench.Options, bench.Clock).ReadAsync(Stop);

        Assert.Null(backlog.Behind);
        Assert.Equal("an unknown time behind, 0 charts wait to be judged; how long catching up takes is not known yet", BacklogWords.Of(backlog));
    }

    // Of eight hours the first page brings one, and each further page half an hour in two seconds.
    [Fact]
    public async Task OnceTheServerAnswers_ItSaysHowLongReadingTakes_ByThePaceOfItsPages()
    {
        await OutageAsync();
        var back = _bench.Clock.GetUtcNow();
        _source.Answer = question => PageOf(back, question);
        _bench.Turn(seconds: 10);

        await PageAsync();
        Assert.Null((await ReadAsync()).Remaining);
        await PageAsync();
        await PageAsync();
        Measured(_paces.Judging, TimeSpan.FromSeconds(6));

        var backlog = await ReadAsync();

        // Six hours left at half an hour in two seconds, then one chart.
        Assert.Equal((24 + 6, false), (Math.Round(backlog.Remaining!.Value.TotalSeconds, 3), backlog.IsAtLeast));
        Assert.Equal(1, backlog.PatientsWaiting);
        await IntakeBench.SettleAsync(_sweep);
        Assert.Equal(6, (await ReadAsync()).Remaining!.Value.TotalSeconds, 1e-6);
    }

    [Fact]
    public async Task WhereOtherQuestionsAreYetToBeAsked_ItSaysThatItTakesAtLeastSoLong()
    {
        var reader = Reader("rows", "others");
        await _bench.Ledger.KeepAsync([], new SweepCursor("sweep:others", _bench.Clock.GetUtcNow(), null), Stop);
        await OutageAsync();
        var back = _bench.Clock.GetUtcNow();
        _source.Answer = question => PageOf(back, question);
        _bench.Turn(seconds: 10);
        await PageAsync();
        await PageAsync();
        Measured(_paces.Judging, TimeSpan.FromSeconds(6));

        var backlog = await reader.ReadAsync(Stop);

        Assert.True(backlog.IsAtLeast);
        Assert.EndsWith("; caught up in at least 32 s", BacklogWords.Of(backlog), StringComparison.Ordinal);
    }

    // What a stamp of the server says is told by the server's clock, which need not be ours.
    [Fact]
    public async Task AServerWhoseClockIsAnHourSlow_DoesNotMakeItBehind()
    {
        _source.Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow().AddHours(-1));
        _bench.Turn(seconds: 600);
        await IntakeBench.SettleAsync(_sweep);
        _bench.Turn(seconds: 40);

        Assert.Equal((TimeSpan.FromSeconds(40), false), ((await ReadAsync()).Behind, (await ReadAsync()).IsBehind));
    }

    [Fact]
    public async Task MessagesThatWait_TakeAsLongAsTheyTakeBesideTheRest_AndCountOnlyWhereTheyAreSent()
    {
        var patient = _bench.Ledger.Entities.Intern(Core.Charting.EntityKind.Patient, "Patient/1"u8);
        await _bench.Ledger.KeepAsync([TestKit.Ledger.Charted.Vacuum(_bench.Ledger, "o2", "1", "Patient/1", 200)], null, Stop);
        var work = (await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.GetUtcNow(), Stop))!;
        await _bench.Ledger.DecideAsync(new Decision(patient, work.UpTo, 0, work.Fence, "b", [], [new Outgoing(Guid.NewGuid(), "k", patient, "{}")], [], []), Stop);

        Assert.Null((await ReadAsync()).Remaining);
        Measured(_paces.Sending, TimeSpan.FromSeconds(7));

        Assert.Equal((1, 7), ((await ReadAsync()).Pending, Math.Round((await ReadAsync()).Remaining!.Value.TotalSeconds, 3)));
        var silent = new BacklogReader(_bench.Ledger, ["rows"], new Paces(), static () => false, _bench.Options, _bench.Clock);
        Assert.Equal(TimeSpan.Zero, (await silent.ReadAsync(Stop)).Remaining);
    }

    // As a process that is killed leaves it: the claim is held until its lease has run out, whoever comes next.
    [Fact]
    public async Task WhatADeadProcessHadClaimed_IsWaitedForUntilItsLeaseHasRunOut()
    {
        await _bench.Ledger.KeepAsync([TestKit.Ledger.Charted.Vacuum(_bench.Ledger, "o2", "1", "Patient/1", 200)], null, Stop);
        Measured(_paces.Judging, TimeSpan.FromSeconds(6));
        await _bench.Ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _bench.Clock.GetUtcNow(), Stop);
        Assert.Equal(6, (await ReadAsync()).Remaining!.Value.TotalSeconds, 1e-6);
        await _bench.RestartAsync();
        _bench.Turn(seconds: 20);

        Assert.Equal(40 + 6, (await ReadAsync()).Remaining!.Value.TotalSeconds, 1e-6);
        _bench.Turn(seconds: 40);
        Assert.Equal(6, (await ReadAsync()).Remaining!.Value.TotalSeconds, 1e-6);
    }

    [Fact]
    public async Task TheLogSaysEachMinuteThatItIsBehind_AndOnceThatItHasCaughtUp()
    {
        var logger = new Listening<BacklogStep>();
        var step = new BacklogStep(Reader("rows"), _bench.Clock, logger);
        await step.StepAsync(Stop);
        Assert.Empty(logger.Said);
        await OutageAsync();
        _bench.Turn(seconds: 60);
        for (var second = 0; second < 120; second++)
        {
            await step.StepAsync(Stop);
            _bench.Turn(seconds: 1);
        }

        Assert.Equal([LogLevel.Warning, LogLevel.Warning], logger.Said.Select(one => one.Level));
        _source.Answer = _ => SourceFake.Page(_bench.Clock.GetUtcNow());
        await IntakeBench.SettleAsync(_sweep);
        for (var second = 0; second < 180; second++)
        {
            await step.StepAsync(Stop);
            _bench.Turn(seconds: 1);
        }

        Assert.Equal((LogLevel.Information, "AG4018 is over: caught up"), Assert.Single(logger.Said.Skip(2)));
        Assert.StartsWith("AG4018: 8 h 1 min behind, 0 charts wait to be judged;", logger.Said[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhileTheServerIsAway_TheLogDoesNotRepeatEachMinuteThatItIsBehind_AndSaysItOnceItAnswers()
    {
        var (logger, contact) = (new Listening<BacklogStep>(), new ServerContact(_bench.Health, _bench.Options));
        var step = new BacklogStep(Reader("rows"), _bench.Clock, logger, contact);
        await OutageAsync();
        contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", ""), ["rows"], false, _bench.Clock.GetUtcNow());
        for (var minute = 0; minute < 5; minute++)
        {
            await step.StepAsync(Stop);
            _bench.Turn(seconds: 60);
        }

        Assert.Empty(logger.Said);
        contact.Answered(_bench.Clock.GetUtcNow());
        await step.StepAsync(Stop);
        Assert.StartsWith("AG4018: 8 h 5 min behind", Assert.Single(logger.Said).Text, StringComparison.Ordinal);
    }

    private BacklogReader Reader(params string[] queries) => new(_bench.Ledger, queries, _paces, static () => true, _bench.Options, _bench.Clock);

    private ValueTask<BacklogState> ReadAsync() => Reader("rows").ReadAsync(Stop);

    private async Task OutageAsync()
    {
        _source.Answer = _ => SourceFake.Trouble(Codes.SweepRefused);
        _bench.Turn(seconds: 8 * 3600);
        await _sweep.StepAsync(Stop);
    }

    // Two seconds a page.
    private async Task PageAsync()
    {
        _bench.Turn(seconds: 2);
        Assert.Equal(StepResult.DidWork, await _sweep.StepAsync(Stop));
    }

    private static SourcePage PageOf(DateTimeOffset back, SourceQuestion question)
    {
        var page = question.Next is { } next ? int.Parse(next, System.Globalization.CultureInfo.InvariantCulture) : 0;
        var at = IntakeBench.Morning.AddHours(1 + (page * 0.5));
        return SourceFake.Page(back, SourceFake.Row($"o{page}", "1", at)) with { Next = at < back ? $"{page + 1}" : null };
    }

    private static void Measured(Pace pace, TimeSpan each)
    {
        for (var i = 0; i < 10; i++)
        {
            pace.Ran(each, 1);
        }
    }
}
