using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Sending;
using Xunit;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>A write refused by a server that refuses everybody waits, as through any outage; one refused while others are answered is set aside.</summary>
public sealed class RefusedWhileAwayTests : IAsyncLifetime
{
    private static readonly string[] Questions = ["Patient", "rows", "orders", "devices", "places"];
    private static readonly SinkAnswer Refused = ScriptedSink.Refused("AG5206") with { MayBeOutage = true };

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-refused-");
    private readonly SetClock _clock = new(Charted.Morning);
    private readonly ServerContact _contact = new(new IntakeHealth(), new IntakeOptions());
    private SqliteLedger _ledger = null!;
    private SendStep _send = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _ledger = await SqliteLedger.OpenAsync(_folder.FullName, Unflushed.Ledger, _clock);
        _contact.Answered(_clock.Now, "rows");
        _clock.Now += TimeSpan.FromSeconds(5);
    }

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task WhileTheServerRefusesEverything_AWriteWaitsHoweverLong_AndNoTryIsCounted()
    {
        var sink = Sends(Refused);
        await QueueAsync("one");
        await _send.StepAsync(Stop);
        foreach (var question in Questions)
        {
            Refuse(question);
        }

        for (var minute = 0; minute < 30; minute++)
        {
            _clock.Now += TimeSpan.FromMinutes(1);
            Assert.Equal(StepResult.BackOff, await _send.StepAsync(Stop));
        }

        Assert.Equal((0, 1), (await ParkedAsync(), (await _ledger.StateAsync(Stop)).Unknown));
        Assert.Equal(31, sink.Given.Count);
        _clock.Now += TimeSpan.FromMinutes(1);
        Assert.Equal(1, (await _ledger.ClaimAsync(WorkKind.Send, TimeSpan.FromMinutes(1), _clock.Now, Stop))!.Attempts);
    }

    [Fact]
    public async Task AShortOutageThatNoSweepFellInto_SetsNothingAside()
    {
        Sends(Refused, Refused, ScriptedSink.Confirmed("1"));
        await QueueAsync("one");

        await _send.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(2);
        await _send.StepAsync(Stop);
        _contact.Answered(_clock.Now, "rows");
        _clock.Now += TimeSpan.FromSeconds(4);
        await _send.StepAsync(Stop);

        Assert.Equal((0, 1), (await ParkedAsync(), (await _ledger.StateAsync(Stop)).Confirmed));
    }

    [Fact]
    public async Task RefusedAgainAfterTheServerAnsweredAQuestion_ItIsSetAside()
    {
        Sends(Refused);
        await QueueAsync("one");

        await _send.StepAsync(Stop);
        Assert.Equal(0, await ParkedAsync());
        _clock.Now += TimeSpan.FromSeconds(2);
        _contact.Answered(_clock.Now, "rows");
        await _send.StepAsync(Stop);

        Assert.Equal("AG5206", Assert.Single(await _ledger.ParkedAsync(Stop)).Code);
    }

    [Fact]
    public async Task RefusedAgainAfterAnotherWriteWasTaken_ItIsSetAside()
    {
        Sends(Refused, ScriptedSink.Confirmed("1"), Refused);
        await QueueAsync("one");
        await _send.StepAsync(Stop);
        await QueueAsync("two");
        _clock.Now += TimeSpan.FromSeconds(1);
        await _send.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(1);

        await _send.StepAsync(Stop);

        Assert.Equal((1, 1), (await ParkedAsync(), (await _ledger.StateAsync(Stop)).Confirmed));
    }

    [Theory]
    [InlineData(4, 0)]
    [InlineData(2, 1)]
    public async Task OneQuestionAnsweredAmongNearlyNone_IsNoSignThatTheServerIsThere(int refused, int parked)
    {
        Sends(Refused);
        await QueueAsync("one");
        await _send.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(2);
        foreach (var question in Questions.Take(refused))
        {
            Refuse(question);
        }

        _contact.Answered(_clock.Now, Questions[^1]);
        await _send.StepAsync(Stop);

        Assert.Equal(parked, await ParkedAsync());
    }

    [Fact]
    public async Task WhatIsNotAcceptedForItsContent_IsSetAsideAtOnce()
    {
        Sends(ScriptedSink.Refused("AG5105"));
        await QueueAsync("one");

        await _send.StepAsync(Stop);

        Assert.Equal(1, await ParkedAsync());
    }

    private ScriptedSink Sends(params SinkAnswer[] answers)
    {
        var sink = new ScriptedSink(answers);
        _send = new SendStep(_ledger, [sink], new SendOptions { MaxAttempts = 3, FirstDelaySeconds = 2 }, _clock, contact: _contact);
        return sink;
    }

    private void Refuse(string question) =>
        _contact.Unanswered(question, new Problem(Codes.SweepRefused, question, "HTTP 403"), Questions, isForAll: false, _clock.Now, 403);

    private async Task<int> ParkedAsync() => (await _ledger.ParkedAsync(Stop)).Count;

    private async Task QueueAsync(string content)
    {
        await _ledger.KeepAsync([Charted.Vacuum(_ledger, $"for-{content}", "1", "Patient/1", 120)], null, Stop);
        var work = (await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _clock.Now, Stop))!;
        var outgoing = new Outgoing(Guid.NewGuid(), "fhir", work.Patient, content);
        Assert.Equal(Committed.Yes, await _ledger.DecideAsync(new Decision(work.Patient, work.UpTo, _clock.Now.UtcTicks, work.Fence, "basis-1", [], [outgoing], [], []), Stop));
    }
}
