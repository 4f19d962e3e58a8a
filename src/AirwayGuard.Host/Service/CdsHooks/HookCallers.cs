using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Who may call: whoever signs as a configured client does, or, in the demo on loopback alone, anybody.</summary>
internal sealed class HookCallers(ServicePlan plan, CdsHooksOptions options, TokenCheck tokens, CallerLimits limits)
{
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
                return refusal;
            }

            caller = check.Issuer!;
        }

        return limits.Admit(caller);
    }
}
