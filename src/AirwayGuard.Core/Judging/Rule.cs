using System.Collections.Immutable;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Core.Judging;

/// <summary>One check: what it measures, its limits, when it applies, its words and how it stands.</summary>
/// <param name="Id">Kebab case; the same in rule sets, findings, metrics, Flag.code and DetectedIssue.code.</param>
/// <param name="Criteria">Tried in order; the first that breaches decides value, limit and severity.</param>
/// <param name="Tighten">Adds a limit in a circumstance; the stricter of it and the band's own holds.</param>
/// <param name="Allow">The only way to loosen: a charted reason.</param>
/// <param name="Unless">Not judged where all of these hold.</param>
/// <param name="WithheldBy">Id of the check that withholds this one's finding, or empty.</param>
/// <param name="NeedsAge">Cannot tell without an age, also where the strictest band is asked for.</param>
/// <param name="Waits">How long a verdict that rests on something missing is held back, from the subject's time.</param>
/// <param name="Holds">How long a setting streamed by a device must have stood.</param>
/// <param name="Say">States the finding; may name {value}, {limit}, {band}.</param>
/// <param name="Do">What the policy asks and what clears it; same names.</param>
/// <param name="ClearedBy">In a clinician's words, what ends it; shown by <c>rules show</c>.</param>
public sealed record Rule(
    string Id,
    ImmutableArray<SubjectKind> Judges,
    ImmutableArray<Criterion> Criteria,
    ImmutableArray<Circumstance> Tighten,
    ImmutableArray<Allowance> Allow,
    ImmutableArray<Guard> Unless,
    string WithheldBy,
    bool NeedsAge,
    Standing Stands,
    TimeSpan Waits,
    TimeSpan Holds,
    Mode Mode,
    string Say,
    string Do,
    string ClearedBy)
{
    /// <summary>Default wait for what is missing: above the upper quartile of a published charting lag (PMID 37966346: 1 h 44 min).</summary>
    public static readonly TimeSpan DefaultWait = TimeSpan.FromHours(2);

    /// <summary>What the check is about in a clinician's few words, to stand behind an age band (<c>vacuum ceiling</c>); empty where the document gives none.</summary>
    public string Title { get; init; } = "";

    /// <summary>What <see cref="SayInstead"/> is called where the thing missed is charted and does not count.</summary>
    public const string Charted = "charted";

    /// <summary>Sentences that take the place of <see cref="Say"/> where the value is this code, or where what is missing is charted and does not count.</summary>
    public ImmutableArray<(string When, string Say)> SayInstead { get; init; } = [];
}

/// <summary>One measure against its limits.</summary>
public sealed record Criterion(Measure Measure, BandLimits Limits, SeveritySteps Severity);

/// <summary>A measure that must (not) have a value for a rule or circumstance to apply.</summary>
public sealed record Guard(Measure Measure, Limit Limit);

/// <summary>Where all of <paramref name="When"/> hold, these limits hold too.</summary>
public sealed record Circumstance(ImmutableArray<Guard> When, BandLimits Limits);

/// <summary>A charted reason that allows another limit, or (no limit) allows the thing altogether.</summary>
/// <param name="Reason">A code of allowance-reason.</param>
/// <param name="Source">Who publishes that the reason allows it.</param>
public sealed record Allowance(string Reason, BandLimits? Limits, string Source, SourceStatus Status)
{
    /// <summary>Rows in which the reason may be charted.</summary>
    public IEnumerable<Charting.Concept> Reads => Reasons.Sources(Reason).Select(source => source.Concept);
}
