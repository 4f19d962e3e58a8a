using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Judging;

/// <summary>Brings due times back as arrivals once their time has come; no timer is held in memory.</summary>
public sealed class DueStep(ILedger ledger, TimeProvider clock) : IStep
{
    public string Name => "due";

    public async ValueTask<StepResult> StepAsync(CancellationToken stop) =>
        await ledger.RaiseDueAsync(clock.GetUtcNow(), stop) > 0 ? StepResult.DidWork : StepResult.Idle;
}
