using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>What the table of checks says of one check; the same in both sets.</summary>
public sealed record CheckRow(string Id, string Judges, string Measures, string Severity, Standing Stands, string WithheldBy, bool NeedsAge)
{
    /// <summary>Ships silent: judged and recorded, nothing leaves the service.</summary>
    public bool IsSilent { get; init; }

    /// <summary>How many circumstances tighten it.</summary>
    public int Tighten { get; init; }

    /// <summary>Where it is not judged, <c>measure=code</c>, joined by commas.</summary>
    public string Unless { get; init; } = "";

    /// <summary>Reasons that let it pass, in order, joined by commas.</summary>
    public string Allow { get; init; } = "";
}
