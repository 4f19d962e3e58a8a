using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.Worker.Questions;

/// <summary>Our services by their ids.</summary>
public static class HookServices
{
    public const string OrderSign = "suction-order-sign";
    public const string OrderSelect = "suction-order-select";
    public const string PatientView = "suction-patient-view";

    /// <summary>The hook that a service answers; null where there is no such service.</summary>
    public static Hook? HookOf(string service) => service switch
    {
        OrderSign => Hook.OrderSign,
        OrderSelect => Hook.OrderSelect,
        PatientView => Hook.PatientView,
        _ => null,
    };
}
