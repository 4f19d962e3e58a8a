using AirwayGuard.Fhir.Client;

namespace AirwayGuard.Fhir.Intake;

/// <summary>One code a sweep asks for, in one spelling of its system.</summary>
public readonly record struct SweepCode(string System, string Code)
{
    /// <summary>As a search token, escaped for a search value but not yet for an address.</summary>
    public string Token => SearchValue.Token(System, Code);
}
