using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Sending;

/// <summary>Claims one outgoing message, hands it to the sink that takes it, and settles what became of it.</summary>
public sealed class SendStep(ILedger ledger, IReadOnlyList<ISink> sinks, SendOptions options, TimeProvider clock) : IStep
{
    public string Name => "send";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop)
    {
        var (lease, claimed) = (TimeSpan.FromSeconds(options.LeaseSeconds), clock.GetUtcNow());
        var work = await ledger.ClaimAsync(WorkKind.Send, lease, claimed, stop);
        if (work is null)
        {
            return StepResult.Idle;
        }

        var outgoing = await ledger.OutgoingAsync(work.Outgoing, stop);
        var sink = outgoing is null ? null : sinks.FirstOrDefault(one => one.Takes(outgoing.Kind));
        var answer = sink is null
            ? new SinkAnswer(SendState.Parked, null, false, false, Core.Diagnostics.Codes.NoSink.Id, null)
            : await sink.SendAsync(outgoing!, await ledger.LastSentAsync(work.Outgoing, stop), claimed + lease, stop);
        if (outgoing is not null)
        {
            // Before the receipt: what is settled is not looked at again.
            await PersonsHand.NoteAsync(ledger, outgoing, answer, clock.GetUtcNow(), stop);
        }

        await ledger.SettleAsync(ReceiptOf(work, answer), stop);
        return answer.State == SendState.Unknown ? StepResult.BackOff : StepResult.DidWork;
    }

    private Receipt ReceiptOf(Work work, SinkAnswer answer)
    {
        var now = clock.GetUtcNow();
        var isLast = answer.State == SendState.Unknown && work.Attempts >= options.MaxAttempts;
        var delay = answer.RetryAfter ?? TimeSpan.FromSeconds(options.FirstDelaySeconds * Math.Pow(2, Math.Clamp(work.Attempts - 1, 0, 10)));
        return new Receipt(
            work.Outgoing, work.Fence, isLast ? SendState.Parked : answer.State, answer.Server?.Id, answer.Server?.Version, answer.Code, now,
            answer.State == SendState.Unknown && !isLast ? now + delay : null);
    }
}
