namespace AirwayGuard.Fhir.CdsHooks;

/// <summary>What the standard calls the hooks.</summary>
public static class HookNames
{
    /// <summary>As it stands in a discovery and a request.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is none.</exception>
    public static string Of(Hook hook) => hook switch
    {
        Hook.OrderSign => "order-sign",
        Hook.OrderSelect => "order-select",
        Hook.PatientView => "patient-view",
        _ => throw new ArgumentOutOfRangeException(nameof(hook)),
    };
}
