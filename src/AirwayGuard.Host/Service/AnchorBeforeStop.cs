namespace AirwayGuard.Host.Service;

/// <summary>The demo's server stops with the service, so its last anchor is written while it still answers.</summary>
internal sealed class AnchorBeforeStop(ServicePlan plan, AuditAnchor anchor, LedgerTrust trust) : IHostedLifecycleService
{
    public async Task StoppingAsync(CancellationToken cancellationToken)
    {
        try
        {
            await (plan.IsDemo ? anchor.EndAsync(answers: true) : Task.CompletedTask);
        }
        catch (Exception trouble) when (trust.IsLostBy(trouble))
        {
            // It is told, and shows in the exit code.
            return;
        }
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
