using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Worker.Checking;

/// <summary>What a single run found.</summary>
/// <param name="AsOf">The time judged at; null where nothing carried a time.</param>
/// <param name="Unreadable">Something could not be read at all.</param>
public sealed record CheckReport(
    RuleSet Rules,
    DateTimeOffset? AsOf,
    JudgedCounts Judged,
    ImmutableArray<ReportedFinding> Findings,
    ImmutableArray<ReportedCannotTell> CannotTell,
    ImmutableArray<OrderWords> Orders,
    ImmutableArray<Problem> Problems,
    bool Unreadable)
{
    /// <summary>Codes of charted rows that no map knows, most rows first.</summary>
    public ImmutableArray<NotMappedCode> NotMapped { get; init; } = [];

    /// <summary>How many of the findings are recorded only, since another check says them; the others are shown.</summary>
    public int Withheld => Findings.Count(finding => finding.Finding.IsWithheld);

    /// <summary>2 if something could not be read, else 1 if anything breached (withdrawn ones aside), else 0: no breach found, not "all well".</summary>
    public int ExitCode => Unreadable ? 2 : Findings.Any(finding => finding.Finding.State != FindingState.Withdrawn) ? 1 : 0;
}

/// <summary>A code that no map knows, and how many charted rows carry it.</summary>
/// <param name="Code"><c>system|code</c>; empty for rows without a code.</param>
public sealed record NotMappedCode(string Code, int Rows);

/// <summary>How many subjects were judged.</summary>
public sealed record JudgedCounts(int Passes, int Sessions, int Orders, int Settings);

/// <summary>A finding with the names and words fetched for it.</summary>
/// <param name="About">Anchors by time then id, then every resource whose value was compared.</param>
/// <param name="Charted">The latest occurrence's value in the words charted; null for none.</param>
public sealed record ReportedFinding(DerivedFinding Finding, string? Patient, ImmutableArray<string> About, string? Charted)
{
    /// <summary>Where the regulator or outlet of a finding without patient stands; null for others.</summary>
    public string? Place { get; init; }

    /// <summary>The latest occurrence's charting was last changed on its server more than two hours after it happened.</summary>
    public bool Late { get; init; }

    /// <summary>Says its check only.</summary>
    public override string ToString() => $"ReportedFinding({Finding.Rule.Id})";
}

public sealed record ReportedCannotTell(DerivedCannotTell CannotTell, string? Patient, string Missing, ImmutableArray<string> About)
{
    /// <summary>Says its check only.</summary>
    public override string ToString() => $"ReportedCannotTell({CannotTell.Rule.Id})";
}
