using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;
using AirwayGuard.Worker.Tests.Intake;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>A server that answers what it is asked and takes no writes: what waits is told once it waits for long.</summary>
public sealed class UnsentStepTests : IAsyncLifetime
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-unsent-");
    private readonly SetClock _clock = new(Charted.Morning);
    private readonly IntakeHealth _health = new();
    private Unsent _unsent = new();
    private readonly Listening<UnsentStep> _log = new();
    private ServerContact _contact = null!;
    private SqliteLedger _ledger = null!;
    private UnsentStep _step = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _ledger = await SqliteLedger.OpenAsync(_folder.FullName, Unflushed.Ledger, _clock);
        Start(isAnswered: true);
    }

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task WhatWaitsFiveMinutes_IsToldOnce_WithHowManyAndSinceWhen_AndOnceThatItIsOver()
    {
        await QueueAsync(Guid.NewGuid());
        await QueueAsync(Guid.NewGuid());
        var busy = new ScriptedSink(ScriptedSink.Open("AG5107"));
        await PassAsync(seconds: 299, busy);
        Assert.Equal((Charted.Morning, null), (_unsent.Oldest, _unsent.Told));
        Assert.Empty(_health.Standing);

        await PassAsync(seconds: 3600, busy);

        Assert.Equal(new UnsentNote(2, Charted.Morning), _unsent.Told);
        Assert.Equal([("outbox", "AG5007")], _health.Standing);
        Assert.Equal(
            (LogLevel.Warning, "AG5007: 2 findings are not on the server as they stand, the oldest since 2026-03-02T08:00:00Z. Nothing is lost: they are tried again until the server takes them"),
            Assert.Single(_log.Said));
        await PassAsync(seconds: 120, new ScriptedSink(ScriptedSink.Confirmed("1")));
        Assert.Equal((null, null), (_unsent.Oldest, _unsent.Told));
        Assert.Empty(_health.Standing);
        Assert.Matches("^AG5007 is over after 39[0-9]{2} s: nothing waits$", Assert.Single(_log.Said.Skip(1)).Text);
    }

    [Fact]
    public async Task WhatIsSentInTime_IsNotTold_HoweverOftenThereIsMoreOfIt()
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1"));
        for (var round = 0; round < 40; round++)
        {
            await QueueAsync(Guid.NewGuid());
            await PassAsync(seconds: 20, sink);
        }

        Assert.Empty(_log.Said);
        Assert.Null(_unsent.Oldest);
    }

    // Each newer message of a finding takes the place of the one before.
    [Fact]
    public async Task AFindingWhoseMessageIsRenewedEachMinute_IsToldAllTheSame()
    {
        var (key, busy) = (Guid.NewGuid(), new ScriptedSink(ScriptedSink.Open("AG5107")));
        for (var minute = 0; minute < 6; minute++)
        {
            await QueueAsync(key);
            await PassAsync(seconds: 60, busy);
        }

        Assert.Equal(new UnsentNote(1, Charted.Morning), _unsent.Told);
        Assert.StartsWith("AG5007: 1 finding is not on the server as it stands, the oldest since ", Assert.Single(_log.Said).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OneThatWaitsForLongWhileOthersAreTaken_IsToldAllTheSame()
    {
        await QueueAsync(Guid.NewGuid());
        await PassAsync(seconds: 10, new ScriptedSink(ScriptedSink.Open("AG5107", TimeSpan.FromHours(1))));
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1"));
        for (var minute = 0; minute < 6; minute++)
        {
            await QueueAsync(Guid.NewGuid());
            await PassAsync(seconds: 60, sink);
        }

        Assert.Equal(new UnsentNote(1, Charted.Morning), _unsent.Told);
    }

    [Fact]
    public async Task WhileTheServerDoesNotAnswerAtAll_ThatIsTold_AndAfterwardsThereAreFiveMinutesToCatchUp()
    {
        await QueueAsync(Guid.NewGuid());
        var busy = new ScriptedSink(ScriptedSink.Open("AG5107"));
        _contact.Unanswered("rows", new Problem(Codes.SweepRefused, "rows", "HTTP 503"), ["rows"], false, _clock.Now);
        await PassAsync(seconds: 3600, busy);
        Assert.Equal((Charted.Morning, null), (_unsent.Oldest, _unsent.Told));

        _contact.Answered(_clock.Now);
        await PassAsync(seconds: 280, busy);
        Assert.Empty(_log.Said);
        await PassAsync(seconds: 40, busy);
        Assert.Equal(Charted.Morning, _unsent.Told!.Since);
    }

    [Fact]
    public async Task AfterARestart_TheWaitCountsFromWhenTheMessageWasFirstDue()
    {
        var busy = new ScriptedSink(ScriptedSink.Open("AG5107"));
        await QueueAsync(Guid.NewGuid());
        await PassAsync(seconds: 240, busy);
        await RestartAsync(isAnswered: true);

        await PassAsync(seconds: 50, busy);
        Assert.Equal((Charted.Morning, null), (_unsent.Oldest, _unsent.Told));
        await PassAsync(seconds: 30, busy);

        Assert.Equal(new UnsentNote(1, Charted.Morning), _unsent.Told);
        Assert.Equal([("outbox", "AG5007")], _health.Standing);
    }

    // What waited through an outage of the service may be sent first.
    [Fact]
    public async Task AfterARestart_AMinuteFromTheServersFirstAnswerIsLeft_HoweverLongTheMessageHasWaited()
    {
        var busy = new ScriptedSink(ScriptedSink.Open("AG5107"));
        await QueueAsync(Guid.NewGuid());
        _clock.Now += TimeSpan.FromHours(8);
        await RestartAsync(isAnswered: false);
        await PassAsync(seconds: 200, busy);
        _contact.Answered(_clock.Now);
        await PassAsync(seconds: 50, busy);
        Assert.Empty(_log.Said);

        await PassAsync(seconds: 30, busy);

        Assert.Equal(Charted.Morning, _unsent.Told!.Since);
    }

    [Fact]
    public async Task WhatWasSetAsideAndIsPutBack_WaitsFromThenOn()
    {
        await QueueAsync(Guid.NewGuid());
        await PassAsync(seconds: 20, new ScriptedSink(ScriptedSink.Refused("AG5105")));
        Assert.Null(_unsent.Oldest);
        _clock.Now += TimeSpan.FromHours(1);
        await _ledger.RetryParkedAsync(Assert.Single(await _ledger.ParkedEntriesAsync(Stop)).Number, null, Stop);

        await PassAsync(seconds: 20, new ScriptedSink(ScriptedSink.Open("AG5107")));

        Assert.Equal((Charted.Morning.AddSeconds(3620), null), (_unsent.Oldest, _unsent.Told));
    }

    [Fact]
    public async Task WhereNothingIsSent_NothingWaits()
    {
        await QueueAsync(Guid.NewGuid());
        _step = StepOf(sends: false);

        await PassAsync(seconds: 3600, new ScriptedSink(ScriptedSink.Open("AG5107")));

        Assert.Equal((null, null), (_unsent.Oldest, _unsent.Told));
        Assert.Empty(_log.Said);
    }

    // The process ends, and another begins on the same folder: nothing but the ledger is remembered.
    private async Task RestartAsync(bool isAnswered)
    {
        await _ledger.DisposeAsync();
        _ledger = await SqliteLedger.OpenAsync(_folder.FullName, Unflushed.Ledger, _clock);
        Start(isAnswered);
    }

    private void Start(bool isAnswered)
    {
        _unsent = new Unsent();
        _contact = new ServerContact(_health, new IntakeOptions());
        if (isAnswered)
        {
            _contact.Answered(_clock.Now);
        }

        _step = StepOf(sends: true);
    }

    private UnsentStep StepOf(bool sends) => new(_ledger, _unsent, () => sends, _health, _contact, _clock, _log);

    private async Task PassAsync(int seconds, ScriptedSink sink)
    {
        var send = new SendStep(_ledger, [sink], new SendOptions(), _clock);
        for (var second = 0; second < seconds; second++)
        {
            await _step.StepAsync(Stop);
            await send.StepAsync(Stop);
            _clock.Now += TimeSpan.FromSeconds(1);
        }
    }

    private async Task QueueAsync(Guid key)
    {
        await _ledger.KeepAsync([Charted.Vacuum(_ledger, Guid.NewGuid().ToString("N"), "1", "Patient/1", 120)], null, Stop);
        var work = (await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _clock.Now, Stop))!;
        Assert.Equal(
            Committed.Yes, await _ledger.DecideAsync(new Decision(work.Patient, work.UpTo, _clock.Now.UtcTicks, work.Fence, "basis-1", [], [new Outgoing(key, "fhir", work.Patient, "one")], [], []), Stop));
    }
}
