namespace AirwayGuard.Host.Service;

/// <summary>The demo's server stops with the service, so its last anchor is written while it still answers.</summary>
internal sealed class AnchorBeforeStop(ServicePlan plan, AuditAnchor anchor) : IHostedLifecycleService
{
    public Task StoppingAsync(CancellationToken cancellationToken) => plan.IsDemo ? anchor.EndAsync(answers: true) : Task.CompletedTask;

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
