namespace AirwayGuard.Fhir.Intake;

/// <summary>One question a sweep asks: a resource type, for Observations with the codes that are read.</summary>
/// <param name="Name">Unique; names the cursor.</param>
/// <param name="Codes">Any of these; empty for all of the type.</param>
public sealed record SweepQuery(string Name, string Type, IReadOnlyList<SweepCode> Codes)
{
    /// <summary>Names the Subscription's channel: stays as it is where the codes change, so that an old Subscription is found.</summary>
    public string Channel { get; init; } = Name;

    /// <summary>Asks the type's history for what was deleted, which no search shows.</summary>
    public bool AsksDeletions { get; init; }

    /// <summary>Nothing can be judged where it is not answered: without patients and rows there is no chart.</summary>
    public bool IsIndispensable => !AsksDeletions && (Type is "Patient" or "Observation");

    /// <summary>The codes may stand in components alone, so the server is asked by <see cref="InComponentsToo"/> where it offers that.</summary>
    public bool ReadsComponents { get; init; }

    /// <summary>R4's parameter for a code of the row or of one of its components (Observation, searchparameter-registry.html).</summary>
    internal const string InComponentsToo = "combo-code";

    /// <summary>The parameter it is asked by.</summary>
    internal string CodeName { get; init; } = "code";

    /// <summary>As Subscription criteria: type and codes, never a status or a value, since a notice must come when a row stops matching too.</summary>
    public string Criteria => Codes.Count == 0 ? Type + "?" : $"{Type}?{(this with { CodeName = "code" }).CodeParameter}";

    /// <summary>The parameter with all codes, ready for an address.</summary>
    internal string CodeParameter => CodeName + "=" + string.Join(',', Codes.Select(code => Uri.EscapeDataString(code.Token)));
}
