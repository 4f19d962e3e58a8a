namespace AirwayGuard.Host.Service.CdsHooks;

/// <summary>Who calls, or why nobody is let in: exactly one of both is there.</summary>
/// <param name="Issuer">The <c>iss</c> as configured.</param>
internal readonly record struct HookCaller(string? Issuer, HookRefusal? Refusal)
{
    public static implicit operator HookCaller(HookRefusal refusal) => new(null, refusal);
}
