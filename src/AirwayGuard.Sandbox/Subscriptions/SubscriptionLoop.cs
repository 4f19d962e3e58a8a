using Microsoft.Extensions.Hosting;

namespace AirwayGuard.Sandbox.Subscriptions;

/// <summary>Steps the dispatcher for as long as the host runs.</summary>
internal sealed class SubscriptionLoop(SandboxRepository repository, SubscriptionDispatcher dispatcher, TimeProvider clock) : BackgroundService
{
    // Ends of Subscriptions have no event of their own.
    private static readonly TimeSpan LongestRest = TimeSpan.FromSeconds(30);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        while (!stoppingToken.IsCancellationRequested)
        {
            if (!await dispatcher.StepAsync(stoppingToken))
            {
                await Rest(stoppingToken);
            }
        }
    }

    private async Task Rest(CancellationToken stopping)
    {
        var wait = dispatcher.NextDue - clock.GetUtcNow() is { } until && until < LongestRest ? until : LongestRest;
        if (wait <= TimeSpan.Zero)
        {
            return;
        }

        using var enough = new CancellationTokenSource(wait, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(enough.Token, stopping);
        try
        {
            await repository.WaitForWorkAsync(either.Token);
        }
        catch (OperationCanceledException) when (!stopping.IsCancellationRequested)
        {
            // The wait was long enough: look again.
            return;
        }
    }
}
