using AirwayGuard.Fhir.CdsHooks;

namespace AirwayGuard.TestKit.Mutation.Targets;

/// <summary>What an answer to an EHR owes whatever was sent.</summary>
internal static class HookFaults
{
    /// <summary>Whether a fault's words or place hold a person's.</summary>
    public static string? Quoted(HookFault fault) =>
        (fault.Where + fault.Why).Contains(Edges.Mark, StringComparison.Ordinal) ? $"{fault.Code} quotes what was sent."
        : fault.Where.Length is 0 or > 200 || fault.Why.Length == 0 ? $"{fault.Code} does not say where or why." : null;
}
