using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Intake;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;

namespace AirwayGuard.Worker.Sending;

/// <summary>Claims one outgoing message, hands it to the sink that takes it, and settles what became of it.</summary>
public sealed partial class SendStep(
    ILedger ledger, IReadOnlyList<ISink> sinks, SendOptions options, TimeProvider clock, ILogger<SendStep>? logger = null, ServerContact? contact = null) : IStep
{
    private static readonly TimeSpan LongestWaitWhileAway = TimeSpan.FromMinutes(1);

    // What a server, or what stands before it, says when it is not there for anybody.
    private static readonly string[] Away = [Codes.ServerBusy.Id, Codes.NoAnswer.Id, Codes.CircuitOpen.Id];

    private DateTimeOffset _lastTaken = DateTimeOffset.MinValue;
    private readonly ILogger _logger = logger ?? NullLogger<SendStep>.Instance;
    private readonly RefusedWrites _refused = new(contact);
    private readonly ClaimReturn _return = new(ledger.ReleaseAsync);

    public string Name => "send";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        await _return.GiveAsync(stop);
        var (lease, claimed) = (TimeSpan.FromSeconds(options.LeaseSeconds), clock.GetUtcNow());
        var work = await ledger.ClaimAsync(WorkKind.Send, lease, claimed, stop);
        if (work is null)
        {
            return StepResult.Idle;
        }

        try
        {
            return await WorkAsync(work, claimed + lease, stop);
        }
        catch (Exception trouble) when (DiskFull.IsMeantBy(trouble))
        {
            await _return.TakeAsync(work, stop);
            throw;
        }
    }

    private async ValueTask<StepResult> WorkAsync(Work work, DateTimeOffset until, CancellationToken stop)
    {
        // Nothing was said of the attempts before: what ends the process is not tried at every start.
        var answer = work.Attempts > Math.Max(Claims.MostWithoutWord, options.MaxAttempts) ? Failed : await TryAsync(work, until, stop);
        var receipt = ReceiptOf(work, answer);
        if (await ledger.SettleAsync(receipt, stop) == Committed.Yes && receipt.State == SendState.Parked)
        {
            var kind = (await ledger.OutgoingAsync(work.Outgoing, stop))?.Kind ?? "unknown";
            LogSetAside(_logger, receipt.ProblemCode ?? "", kind, work.Outgoing, work.Attempts);
        }

        return receipt.State == SendState.Unknown ? StepResult.BackOff : StepResult.DidWork;
    }

    private static SinkAnswer Failed => new(SendState.Unknown, null, false, false, Codes.SendingFailed.Id, null);

    // Nobody knows whether it arrived where sending it met a fault: it waits like what had no answer.
    private async ValueTask<SinkAnswer> TryAsync(Work work, DateTimeOffset until, CancellationToken stop)
    {
        try
        {
            return await SendAsync(work, until, stop);
        }
        catch (Exception trouble) when (!DiskFull.IsMeantBy(trouble) && !LedgerFile.IsDamageMeantBy(trouble) && (trouble is not OperationCanceledException || !stop.IsCancellationRequested))
        {
            LogFailed(_logger, Codes.SendingFailed.Id, work.Attempts, options.MaxAttempts, trouble.GetType().Name);
            return Failed;
        }
    }

    private async ValueTask<SinkAnswer> SendAsync(Work work, DateTimeOffset until, CancellationToken stop)
    {
        if (await ledger.OutgoingAsync(work.Outgoing, stop) is not { } outgoing)
        {
            return Nothing;
        }

        var last = await ledger.LastSentAsync(work.Outgoing, stop);
        var answer = sinks.FirstOrDefault(one => one.Takes(outgoing.Kind)) is not { } sink ? Nothing
            : last is null && await PersonsHand.HasEndedAsync(ledger, outgoing, stop) ? Ended
            : await sink.SendAsync(outgoing, last, until, stop);

        // Before the receipt: what is settled is not looked at again.
        await PersonsHand.NoteAsync(ledger, outgoing, answer, clock.GetUtcNow(), stop);
        return answer;
    }

    private static SinkAnswer Ended => new(SendState.Confirmed, null, false, false, null, null);

    private static SinkAnswer Nothing => new(SendState.Parked, null, false, false, Codes.NoSink.Id, null);

    [LoggerMessage(5001, LogLevel.Error, "{Code}: sending met a fault of its own, attempt {Attempt} of {Most} ({Kind})")]
    private static partial void LogFailed(ILogger logger, string code, int attempt, int most, string kind);

    [LoggerMessage(5004, LogLevel.Warning, "{Code}: the {Kind} message of {Key} is set aside after attempt {Attempt} and waits for a person (airwayguard parked list), unless a newer one has taken its place")]
    private static partial void LogSetAside(ILogger logger, string code, string kind, Guid key, int attempt);

    private Receipt ReceiptOf(Work work, SinkAnswer answer)
    {
        var now = clock.GetUtcNow();
        _lastTaken = answer.State == SendState.Confirmed ? now : _lastTaken;
        if (_refused.Wait(work.Outgoing, answer, now, _lastTaken) is > 0 and var times)
        {
            var wait = DelayAfter(times);
            return new Receipt(
                work.Outgoing, work.Fence, SendState.Unknown, answer.Server?.Id, answer.Server?.Version, answer.Code, now, now + (wait < LongestWaitWhileAway ? wait : LongestWaitWhileAway))
            {
                IsNoAttempt = true,
            };
        }

        // Not this message's fault where nothing else was taken either since it was tried last: through an outage it waits, however long.
        var isAway = answer.State == SendState.Unknown && Away.Contains(answer.Code, StringComparer.Ordinal) && _lastTaken <= now - DelayAfter(work.Attempts - 1);
        var isPastLast = answer.State == SendState.Unknown && work.Attempts >= options.MaxAttempts;
        var isLast = isPastLast && !isAway;
        // What is no attempt any more is not counted, so that its waits would grow no further.
        var delay = answer.RetryAfter ?? (isAway && (isPastLast || DelayAfter(work.Attempts) > LongestWaitWhileAway) ? LongestWaitWhileAway : DelayAfter(work.Attempts));
        return new Receipt(
            work.Outgoing, work.Fence, isLast ? SendState.Parked : answer.State, answer.Server?.Id, answer.Server?.Version, answer.Code, now,
            answer.State == SendState.Unknown && !isLast ? now + delay : null)
        {
            IsNoAttempt = isPastLast && isAway,
        };
    }

    private TimeSpan DelayAfter(int attempts) => TimeSpan.FromSeconds(options.FirstDelaySeconds * Math.Pow(2, Math.Clamp(attempts - 1, 0, 10)));
}
