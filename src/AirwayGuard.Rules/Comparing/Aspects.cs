namespace AirwayGuard.Rules.Comparing;

/// <summary>What of a check can change, as the JSON of <c>rules compare</c> names it.</summary>
internal static class Aspects
{
    public const string Limit = "limit", Circumstance = "circumstance", Allowance = "allowance";

    public const string Measure = "measure", Judges = "judges", Unless = "unless", Severity = "severity", Mode = "mode", Stands = "stands";

    public const string Waits = "waits", Holds = "holds", WithheldBy = "withheldBy", NeedsAge = "needsAge";

    public const string Title = "title", Say = "say", SayInstead = "sayInstead", Do = "do", Clears = "clears";
}
