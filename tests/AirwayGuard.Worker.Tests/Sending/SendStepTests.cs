using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Ledger;
using AirwayGuard.TestKit.Pipeline;
using AirwayGuard.Worker.Sending;
using Microsoft.Extensions.Logging;
using Xunit;

namespace AirwayGuard.Worker.Tests.Sending;

/// <summary>What becomes of one outgoing message, by what the sink answers.</summary>
public sealed class SendStepTests : IAsyncLifetime
{
    private static readonly Guid Key = new("0f0e0d0c-0b0a-0908-0706-050403020100");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("airwayguard-send-");
    private readonly SetClock _clock = new(Charted.Morning);
    private readonly SendOptions _options = new() { MaxAttempts = 3, FirstDelaySeconds = 2 };
    private SqliteLedger _ledger = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _ledger = await SqliteLedger.OpenAsync(_folder.FullName, Unflushed.Ledger, _clock);

    public async ValueTask DisposeAsync()
    {
        await _ledger.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task WithNothingToSendItIsIdle() => Assert.Equal(StepResult.Idle, await StepOf(new ScriptedSink(ScriptedSink.Confirmed("1"))).StepAsync(Stop));

    [Fact]
    public async Task WhatIsConfirmedIsSentOnce_AndTheNextMessageKnowsTheVersionLeft()
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1"), ScriptedSink.Confirmed("2"));
        await QueueAsync("one");
        Assert.Equal((StepResult.DidWork, StepResult.Idle), (await StepOf(sink).StepAsync(Stop), await StepOf(sink).StepAsync(Stop)));

        await QueueAsync("two");
        await StepOf(sink).StepAsync(Stop);

        Assert.Equal([("one", null), ("two", new ServerVersion("77", "1"))], sink.Given.Select(one => (one.Outgoing.Content, one.Last)));
        Assert.Equal(1, (await _ledger.StateAsync(Stop)).Confirmed);
    }

    [Fact]
    public async Task ARetryableAnswerIsTriedAgainLater_EachTimeTwiceAsLate()
    {
        var sink = new ScriptedSink(ScriptedSink.Open("AG5107"));
        await QueueAsync("one");

        Assert.Equal(StepResult.BackOff, await StepOf(sink).StepAsync(Stop));
        await IsTriedAfterAsync(sink, TimeSpan.FromSeconds(2), 2);
        await IsTriedAfterAsync(sink, TimeSpan.FromSeconds(4), 3);
    }

    [Fact]
    public async Task TheServersOwnWaitGoesBeforeOurs()
    {
        var sink = new ScriptedSink(ScriptedSink.Open("AG5107", TimeSpan.FromMinutes(3)), ScriptedSink.Confirmed("1"));
        await QueueAsync("one");
        await StepOf(sink).StepAsync(Stop);

        await IsTriedAfterAsync(sink, TimeSpan.FromMinutes(3), 2);
    }

    [Fact]
    public async Task AfterTheLastAttemptItIsParkedWithTheLastCode()
    {
        var sink = new ScriptedSink(ScriptedSink.Open("AG5109"), ScriptedSink.Open("AG5109"), ScriptedSink.Open("AG5108"));
        await QueueAsync("one");
        for (var attempt = 1; attempt <= _options.MaxAttempts; attempt++)
        {
            Assert.Empty(await _ledger.ParkedAsync(Stop));
            await StepOf(sink).StepAsync(Stop);
            _clock.Now += TimeSpan.FromHours(1);
        }

        Assert.Equal((3, "AG5108"), (sink.Given.Count, Assert.Single(await _ledger.ParkedAsync(Stop)).Code));
        Assert.Equal(StepResult.Idle, await StepOf(sink).StepAsync(Stop));
    }

    [Theory]
    [InlineData("AG5107")]
    [InlineData("AG5109")]
    [InlineData("AG5112")]
    public async Task ThroughAnOutageNothingIsParked_AndItIsTriedEachMinute(string code)
    {
        var sink = new ScriptedSink([.. Enumerable.Repeat(ScriptedSink.Open(code), 480), ScriptedSink.Confirmed("1")]);
        await QueueAsync("one");
        for (var minute = 0; minute <= 480; minute++)
        {
            await StepOf(sink).StepAsync(Stop);
            Assert.Equal(minute + 1, sink.Given.Count);
            _clock.Now += TimeSpan.FromMinutes(1);
        }

        var state = await _ledger.StateAsync(Stop);
        Assert.Equal((0, 1), (state.Parked, state.Confirmed));
    }

    [Fact]
    public async Task PastTheLastAttempt_AnOutageIsWaitedThroughAMinuteAtATime_HoweverShortTheFirstWaitIs()
    {
        (_options.MaxAttempts, _options.FirstDelaySeconds) = (2, 1);
        var sink = new ScriptedSink(ScriptedSink.Open("AG5107"));
        await QueueAsync("one");
        await StepOf(sink).StepAsync(Stop);
        await IsTriedAfterAsync(sink, TimeSpan.FromSeconds(1), 2);

        await IsTriedAfterAsync(sink, TimeSpan.FromMinutes(1), 3);
        await IsTriedAfterAsync(sink, TimeSpan.FromMinutes(1), 4);
        Assert.Empty(await _ledger.ParkedAsync(Stop));
    }

    // A message that what stands before the server does not let through is told from an outage by what else was taken meanwhile.
    [Fact]
    public async Task WhatHasNoAnswerWhileOthersHaveOne_IsParkedAfterTheLastAttempt()
    {
        var sink = new ScriptedSink(ScriptedSink.Open("AG5109"), ScriptedSink.Open("AG5109"), ScriptedSink.Confirmed("1"), ScriptedSink.Open("AG5109"));
        var step = StepOf(sink);
        await QueueAsync("one");
        await step.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(2);
        await step.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(1);
        await QueueAsync("other", key: Guid.NewGuid());
        await step.StepAsync(Stop);
        _clock.Now += TimeSpan.FromSeconds(3);

        await step.StepAsync(Stop);

        Assert.Equal((Key, "AG5109"), (Assert.Single(await _ledger.ParkedAsync(Stop)).Outgoing!.Value, (await _ledger.ParkedAsync(Stop))[0].Code));
    }

    [Fact]
    public async Task APermanentAnswerIsParkedAtOnceWithItsCode()
    {
        var sink = new ScriptedSink(ScriptedSink.Refused("AG5105"));
        await QueueAsync("one");

        Assert.Equal(StepResult.DidWork, await StepOf(sink).StepAsync(Stop));

        var parked = Assert.Single(await _ledger.ParkedAsync(Stop));
        Assert.Equal((Key, "AG5105"), (parked.Outgoing!.Value, parked.Code));
        _clock.Now += TimeSpan.FromDays(1);
        Assert.Equal(StepResult.Idle, await StepOf(sink).StepAsync(Stop));
    }

    // Of the message its kind and our own key are told, and of what it holds nothing.
    [Fact]
    public async Task WhatIsSetAside_IsToldInTheLogWithItsCodeItsKindAndOurKey()
    {
        var log = new Listening<SendStep>();
        await QueueAsync("Mary Smith");

        await new SendStep(_ledger, [new ScriptedSink(ScriptedSink.Refused("AG5105"))], _options, _clock, log).StepAsync(Stop);

        Assert.Equal(
            (LogLevel.Warning, $"AG5105: the fhir message of {Key} is set aside after attempt 1 and waits for a person (airwayguard parked list), unless a newer one has taken its place"), Assert.Single(log.Said));
    }

    [Fact]
    public async Task WhatIsTriedAgain_OrIsRefusedUnderAClaimOfNoMoreWorth_IsNotToldAsSetAside()
    {
        var log = new Listening<SendStep>();
        await QueueAsync("one");
        await new SendStep(_ledger, [new ScriptedSink(ScriptedSink.Open("AG5108"))], _options, _clock, log).StepAsync(Stop);
        _clock.Now += TimeSpan.FromHours(1);
        var slow = new ScriptedSink(ScriptedSink.Refused("AG5105"))
        {
            Meanwhile = async () =>
            {
                _clock.Now += TimeSpan.FromSeconds(_options.LeaseSeconds);
                await StepOf(new ScriptedSink(ScriptedSink.Confirmed("2"))).StepAsync(Stop);
            },
        };
        await new SendStep(_ledger, [slow], _options, _clock, log).StepAsync(Stop);

        Assert.Single(slow.Given);
        Assert.Empty(log.Said);
    }

    [Fact]
    public async Task WhatNoSinkTakesIsParked()
    {
        await QueueAsync("one", kind: "pager");

        await StepOf(new ScriptedSink(ScriptedSink.Confirmed("1"))).StepAsync(Stop);

        Assert.Equal("AG5001", Assert.Single(await _ledger.ParkedAsync(Stop)).Code);
    }

    [Fact]
    public async Task ASinkThatThrowsIsTriedLikeOneWithoutAnAnswer_AndThenParked()
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1")) { Meanwhile = static () => throw new InvalidOperationException("A fault of the sink.") };
        await QueueAsync("one");

        Assert.Equal(StepResult.BackOff, await StepOf(sink).StepAsync(Stop));
        await IsTriedAfterAsync(sink, TimeSpan.FromSeconds(2), 2);
        await IsTriedAfterAsync(sink, TimeSpan.FromSeconds(4), 3);

        Assert.Equal("AG5006", Assert.Single(await _ledger.ParkedAsync(Stop)).Code);
        _clock.Now += TimeSpan.FromDays(1);
        Assert.Equal(StepResult.Idle, await StepOf(sink).StepAsync(Stop));
    }

    [Fact]
    public async Task AMessageInWhoseSendingTheProcessOftenEnded_IsSentAllTheSame()
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1"));
        await QueueAsync("one");
        for (var start = 0; start < _options.MaxAttempts * 2; start++)
        {
            Assert.NotNull(await _ledger.ClaimAsync(WorkKind.Send, TimeSpan.FromMinutes(1), _clock.Now, Stop));
            _clock.Now += TimeSpan.FromMinutes(1);
        }

        await StepOf(sink).StepAsync(Stop);

        Assert.Single(sink.Given);
        Assert.Empty(await _ledger.ParkedAsync(Stop));
    }

    [Fact]
    public async Task AMessageWhoseSendingEndsTheProcessEachTime_IsParkedWithoutAnotherTry()
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1"));
        await QueueAsync("one");
        for (var start = 0; start < Claims.MostWithoutWord; start++)
        {
            Assert.NotNull(await _ledger.ClaimAsync(WorkKind.Send, TimeSpan.FromMinutes(1), _clock.Now, Stop));
            _clock.Now += TimeSpan.FromMinutes(1);
        }

        await StepOf(sink).StepAsync(Stop);

        Assert.Empty(sink.Given);
        Assert.Equal("AG5006", Assert.Single(await _ledger.ParkedAsync(Stop)).Code);
    }

    [Fact]
    public async Task ASenderPastItsLeaseDoesNotOverwriteWhatTheNextOneSettled()
    {
        var quick = new ScriptedSink(ScriptedSink.Confirmed("2"));
        var slow = new ScriptedSink(ScriptedSink.Refused("AG5105"))
        {
            Meanwhile = async () =>
            {
                _clock.Now += TimeSpan.FromSeconds(_options.LeaseSeconds);
                await StepOf(quick).StepAsync(Stop);
            },
        };
        await QueueAsync("one");

        await StepOf(slow).StepAsync(Stop);

        Assert.Single(quick.Given);
        Assert.Equal(new ServerVersion("77", "2"), await _ledger.LastSentAsync(Key, Stop));
        Assert.Empty(await _ledger.ParkedAsync(Stop));
    }

    [Fact]
    public async Task APersonsEndingIsKeptAsAnArrival_AndThePatientIsJudgedAgain()
    {
        await QueueAsync("one");
        var before = (await _ledger.StateAsync(Stop)).PatientsWaiting;

        await StepOf(new ScriptedSink(new SinkAnswer(SendState.Confirmed, new ServerVersion("77", ""), true, true, null, null))).StepAsync(Stop);

        var state = await _ledger.StateAsync(Stop);
        Assert.Equal((0, 1), (before, state.PatientsWaiting));
        Assert.Equal(ArrivalKind.PersonsAct, (await _ledger.ArrivalAsync(new Core.Charting.Position(state.Newest.Value - 1), Stop))!.Kind);
    }

    [Theory]
    [InlineData(FlagStatus.Active, FindingState.ClosedByPerson, 0)]
    [InlineData(FlagStatus.Active, FindingState.Open, 1)]
    [InlineData(FlagStatus.Inactive, FindingState.ClosedByPerson, 1)]
    public async Task WhatARecordedClosingEndsIsNotRaised_ThoughNobodyKnowsWhereItWas(FlagStatus status, FindingState state, int sent)
    {
        var sink = new ScriptedSink(ScriptedSink.Confirmed("1")) { TakesAll = true };
        var basis = new MessageBasis("set", "1", "r", "b", "1", "1");
        var flag = new FlagMessage(Key, "check", status, Severity.High, "Said.", "Patient/1", null, _clock.Now, null, [], null, "", [], "live", basis);
        await QueueAsync(MessageJson.Write(flag), MessageJson.Flag, state: state);

        await StepOf(sink).StepAsync(Stop);

        Assert.Equal(sent, sink.Given.Count);
        Assert.Equal((0, 1), ((await _ledger.StateAsync(Stop)).Pending, (await _ledger.StateAsync(Stop)).Confirmed));
    }

    private async Task IsTriedAfterAsync(ScriptedSink sink, TimeSpan wait, int attempt)
    {
        _clock.Now += wait - TimeSpan.FromTicks(1);
        Assert.Equal(StepResult.Idle, await StepOf(sink).StepAsync(Stop));
        _clock.Now += TimeSpan.FromTicks(1);
        Assert.NotEqual(StepResult.Idle, await StepOf(sink).StepAsync(Stop));
        Assert.Equal(attempt, sink.Given.Count);
    }

    private SendStep StepOf(ScriptedSink sink) => new(_ledger, [sink], _options, _clock);

    private async Task QueueAsync(string content, string kind = "fhir", Guid? key = null, FindingState? state = null)
    {
        await _ledger.KeepAsync([Charted.Vacuum(_ledger, $"for-{content.GetHashCode(StringComparison.Ordinal)}", "1", "Patient/1", 120)], null, Stop);
        var work = (await _ledger.ClaimAsync(WorkKind.Judge, TimeSpan.FromMinutes(1), _clock.Now, Stop))!;
        var outgoing = new Outgoing(key ?? Key, kind, work.Patient, content);
        FindingRecord[] recorded = state is { } found ? [new FindingRecord(outgoing.Key, FindingKind.Spell, "check", work.Patient, found, Guid.Empty, 1, 0, 0, false, work.UpTo, "basis-1", default)] : [];
        Assert.Equal(Committed.Yes, await _ledger.DecideAsync(new Decision(work.Patient, work.UpTo, _clock.Now.UtcTicks, work.Fence, "basis-1", [.. recorded], [outgoing], [], []), Stop));
    }
}
