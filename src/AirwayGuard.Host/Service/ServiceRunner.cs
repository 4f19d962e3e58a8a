using AirwayGuard.Core.Ports;
using AirwayGuard.Storage;
using AirwayGuard.Worker.Backlog;
using AirwayGuard.Worker.Intake;
using AirwayGuard.Worker.Judging;
using AirwayGuard.Worker.Questions;
using AirwayGuard.Worker.Sending;
using AirwayGuard.Worker.SignOffs;

namespace AirwayGuard.Host.Service;

/// <summary>Loads the demo ward where there is no server, then steps the pipeline until the service stops.</summary>
internal sealed class ServiceRunner(
    ServicePlan plan, ServiceVoice voice, ServiceState state, NoticeBoard board, SweepStep sweep, SubscriptionStep subscriptions, JudgeStep judge, DueStep due, SendStep send,
    UnsentStep unsent, AuditAnchor anchor, BacklogStep backlog, Paces paces, StepTroubles troubles, LedgerTrust trust, SignOffStep signOffs, AnswerBook answers, BasisInForce basis, ILedger ledger, IHostApplicationLifetime lifetime, TimeProvider clock) : BackgroundService
{
    // Answers of so long share a commit.
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(20);

    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(100);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await using var registration = lifetime.ApplicationStarted.Register(started.SetResult);
        try
        {
            await started.Task.WaitAsync(stoppingToken);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The start itself failed, as where the address is in use: whoever started tells it.
            return;
        }

        if (plan.IsDemo && !await DemoStart.LoadAsync(plan, clock, voice.Errors, stoppingToken))
        {
            state.HasFailed = true;
            lifetime.StopApplication();
            return;
        }

        await Task.WhenAll(
            LoopAsync(subscriptions, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(sweep, null, stoppingToken),
            LoopAsync(new PacedStep(judge, paces.Judging, clock), Breath, stoppingToken),
            LoopAsync(due, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(new PacedStep(send, paces.Sending, clock), Breath, stoppingToken),
            LoopAsync(anchor, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(backlog, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(unsent, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(trust, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(signOffs, TimeSpan.FromSeconds(1), stoppingToken),
            LoopAsync(answers, Moment, stoppingToken),
            TellAsync(stoppingToken));
        await KeepLastAsync();
    }

    // A step that throws met a bug or a dead link: it is told, stands in the health while it lasts, and is tried again with waits
    // that grow to a minute.
    private async Task LoopAsync(IStep step, TimeSpan? pause, CancellationToken stop)
    {
        var failures = 0;
        while (!stop.IsCancellationRequested)
        {
            var result = StepResult.BackOff;
            try
            {
                result = await step.StepAsync(stop);
                failures = 0;
                troubles.Ran(step.Name);
            }
            catch (Exception trouble) when (trust.IsLostBy(trouble))
            {
                return;
            }
            catch (Exception trouble) when (trouble is not OperationCanceledException || !stop.IsCancellationRequested)
            {
                failures = troubles.Failed(step.Name, trouble);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }

            if (result == StepResult.DidWork)
            {
                continue;
            }

            try
            {
                await (result == StepResult.BackOff ? Task.Delay(TimeSpan.FromSeconds(Math.Min(60, Math.Pow(2, Math.Clamp(failures - 1, 0, 6)))), clock, stop)
                    : pause is { } time ? Task.Delay(time, clock, stop)
                    : board.WaitAsync(TimeSpan.FromSeconds(1), stop));
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
        }
    }

    // The doors are closed by now: what was answered last is kept before the ledger is.
    private async Task KeepLastAsync()
    {
        try
        {
            await answers.StepAsync(CancellationToken.None);
        }
        catch (Exception trouble) when (trust.IsLostBy(trouble) || DiskFull.IsMeantBy(trouble))
        {
            troubles.Failed(answers.Name, trouble);
        }
    }

    // Once everything was asked for, judged and sent for the first time, says what stands.
    private async Task TellAsync(CancellationToken stop)
    {
        try
        {
            var readiness = new Readiness(ledger, state);
            while (!await readiness.LookAsync(sweep.FirstSweepDone, stop))
            {
                await Task.Delay(Breath, clock, stop);
            }

            while (await ledger.StateAsync(stop) is var now && (now.PatientsWaiting > 0 || (basis.Current.Speaks && now.Pending > 0)))
            {
                await Task.Delay(Breath, clock, stop);
            }

            await StandingTable.WriteAsync(ledger, plan, basis.Current, clock.GetUtcNow(), voice, stop);
        }
        catch (Exception trouble) when (trust.IsLostBy(trouble) || (trouble is OperationCanceledException && stop.IsCancellationRequested))
        {
            return;
        }
    }
}
