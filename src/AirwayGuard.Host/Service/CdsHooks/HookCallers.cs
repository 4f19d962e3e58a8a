using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Who may call: whoever signs as a configured client does, or, in the demo on loopback alone, anybody.</summary>
internal sealed partial class HookCallers(ServicePlan plan, CdsHooksOptions options, TokenCheck tokens, CallerLimits limits, TimeProvider clock, ILogger<HookCallers> logger)
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMinutes(1);

    private long _told;

    /// <summary>The demo on loopback asks nobody who they are, unless clients are configured.</summary>
    public static bool AsksNobodyIn(ServicePlan plan) => plan.Hooks.Clients.Count == 0 && plan.IsDemo && plan.Listen.IsLoopback;

    /// <returns>Null where the call may go on.</returns>
    public async ValueTask<HookRefusal?> RefusalAsync(HttpContext context)
    {
        var caller = CallerLimits.Loopback;
        if (!AsksNobodyIn(plan))
        {
            if (options.Clients.Count == 0)
            {
                return new HookRefusal(StatusCodes.Status404NotFound, Codes.HooksNotSetUp, "request", "No client is configured.");
            }

            var called = HookAddress.Of(options.Address ?? plan.Listen, context.Request.PathBase.Add(context.Request.Path));
            var check = await tokens.CheckAsync(context.Request.Headers.Authorization, called, context.RequestAborted);
            if (check.Refusal is { } refusal)
            {
                Tell(refusal.Code);
                return refusal;
            }

            caller = check.Issuer!;
        }

        return limits.Admit(caller);
    }

    // A client of ours whose keys cannot be had is turned away at every call: whoever runs the service can mend it, and nobody else would tell.
    private void Tell(DiagnosticCode code)
    {
        var (now, before) = (clock.GetUtcNow().UtcTicks, Interlocked.Read(ref _told));
        if (code == Codes.KeySetUnread && now - before >= Quiet.Ticks && Interlocked.CompareExchange(ref _told, now, before) == before)
        {
            LogKeysUnread(logger, code.Id, code.Title);
        }
    }

    [LoggerMessage(1009, LogLevel.Warning, "{Code}: calls of CDS Hooks are turned away: {Title}")]
    private static partial void LogKeysUnread(ILogger logger, string code, string title);
}
