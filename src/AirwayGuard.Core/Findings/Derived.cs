using System.Collections.Immutable;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Findings;

/// <summary>A fact a finding rests on: the value compared, with the resource it stands in.</summary>
public readonly record struct EvidenceItem(FactId Fact, Entity Row);

/// <summary>What made the subject: its Procedure or rows, with their times.</summary>
public readonly record struct SubjectAnchor(Entity Row, long At);

/// <summary>One breach of one check by one subject.</summary>
/// <param name="Key">Of its DetectedIssue.</param>
/// <param name="Value">In the limit's unit, for display; null where the check is about a code or something missing.</param>
/// <param name="Unit"><see cref="Unit.None"/> where the charted unit is missing.</param>
/// <param name="Charted">The fact whose charted words are shown; null for none.</param>
/// <param name="Evidence">Facts whose value was compared.</param>
/// <param name="Circumstance">The fact that set a stricter limit; null for none.</param>
/// <param name="Withheld">Another check of the same subject says it already.</param>
/// <param name="Encounter">The encounter its row names, or none.</param>
/// <param name="CircumstanceNotCharted">A limit would have been stricter under a circumstance that is not charted.</param>
public sealed record Occurrence(
    Guid Key,
    string Subject,
    ImmutableArray<SubjectAnchor> Anchors,
    long At,
    AgeBand Band,
    Severity Severity,
    decimal? Value,
    Unit Unit,
    string? Code,
    Limit Limit,
    EvidenceItem? Charted,
    ImmutableArray<EvidenceItem> Evidence,
    EvidenceItem? Circumstance,
    bool Withheld,
    bool CircumstanceNotCharted,
    Entity Encounter)
{
    /// <summary>At the end of its key: 1 for none, or 2, 3, … where the key before is another patient's.</summary>
    public int Number { get; init; } = 1;

    /// <summary>
    /// Of an order, found against an airway before: it breaches against a later one too, whose occurrence has the key. This one is told by its spell alone.
    /// </summary>
    public bool IsSuperseded { get; init; }

    /// <summary>What kind of subject breached.</summary>
    public SubjectKind Kind { get; init; }

    /// <summary>What the charted number says of the true value; exact where the check is about a code or something missing.</summary>
    public Comparator Comparator { get; init; }

    /// <summary>An upper value that is allowed: what bounds it from above is an end of what may be done.</summary>
    public bool AllowsUpTo { get; init; }

    /// <summary>Charted in another unit than the limit's: <see cref="Value"/> was converted, and near to the limit counts as it.</summary>
    public bool IsConverted { get; init; }

    /// <summary>Identity of the airway in use when it happened; empty for none.</summary>
    public string Airway { get; init; } = "";

    /// <summary>How far the vacuum may have brought the trachea below atmosphere; null where it explains nothing or cannot be estimated. No part of the judgement.</summary>
    public PressureEstimate? Estimate { get; init; }

    /// <summary>Says its key only.</summary>
    public override string ToString() => $"Occurrence({Key})";

    /// <summary>Everything it rests on.</summary>
    public IEnumerable<EvidenceItem> RestsOn => Circumstance is { } circumstance ? Evidence.Append(circumstance) : Evidence;
}

/// <summary>A finding as the facts make it: one occurrence of a check that does not stand, or a spell of one that does.</summary>
/// <param name="Flag">Key of the spell's Flag; empty for a check that does not stand.</param>
/// <param name="Line">Identity of the line, for keys.</param>
/// <param name="Anchor">What the spell's key hangs on.</param>
/// <param name="EndedAt">When it was cleared or its line ended, UTC ticks; 0 while it stands.</param>
/// <param name="LineEnded">It ended with its line, not by a clearing fact.</param>
/// <param name="ClearedBy">The fact that cleared it.</param>
public sealed record DerivedFinding(
    Rule Rule,
    Entity Patient,
    ImmutableArray<Occurrence> Occurrences,
    FindingState State,
    Guid Flag,
    Entity LineEntity,
    string Line,
    string Anchor,
    long EndedAt,
    bool LineEnded,
    EvidenceItem? ClearedBy)
{
    /// <summary>At the end of its Flag's key when it is first shown: 1 for none, or 2, 3, … where the key before is another patient's.</summary>
    public int Number { get; init; } = 1;

    /// <summary>Where a regulator or outlet that no patient has stands, for the Flag's subject; none for a patient's finding.</summary>
    public Entity Place { get; init; }

    public bool Stands => Flag != Guid.Empty;

    public Occurrence First => Occurrences[0];

    public Occurrence Latest => Occurrences[^1];

    /// <summary>All its occurrences are withheld, so nothing of it is shown.</summary>
    public bool IsWithheld => Occurrences.All(occurrence => occurrence.Withheld);

    /// <summary>Says its check and state only.</summary>
    public override string ToString() => $"DerivedFinding({Rule.Id}, {State})";
}

/// <summary>What a check could not tell about one line, or of one order, with how often.</summary>
/// <param name="Key">Of its record, by <see cref="FindingKeys.CannotTell"/>.</param>
/// <param name="At">Of the first subject it could not be told of, UTC ticks.</param>
/// <param name="Latest">Of the latest one.</param>
/// <param name="Missing">What was lacking, each once.</param>
/// <param name="About">Rows that made these subjects.</param>
public sealed record DerivedCannotTell(
    Guid Key, Rule Rule, Entity Patient, string Line, long At, long Latest, ImmutableArray<Missing> Missing, int Count, ImmutableArray<Entity> About)
{
    /// <summary>Says its check only.</summary>
    public override string ToString() => $"DerivedCannotTell({Rule.Id})";
}

/// <summary>Everything the facts of one patient make, at one time.</summary>
public sealed record DerivedFindings(
    ImmutableArray<DerivedFinding> Findings, ImmutableArray<DerivedCannotTell> CannotTell, ImmutableArray<DueVerdict> Due)
{
    public static readonly DerivedFindings None = new([], [], []);

    /// <summary>Keys of these findings that are recorded of another patient.</summary>
    public IReadOnlySet<Guid> OthersKeys { get; init; } = ImmutableHashSet<Guid>.Empty;

    /// <summary>The version of each order that stands, whatever its status; one entered in error or deleted is not among them.</summary>
    public ImmutableArray<StandingOrder> Orders { get; init; } = [];
}

/// <summary>An order on file.</summary>
/// <param name="Identity">Its name in keys.</param>
/// <param name="Since">Position of the version that stands.</param>
public readonly record struct StandingOrder(Entity Row, string Identity, Position Since);

/// <summary>A verdict that waits: judge again then.</summary>
public readonly record struct DueVerdict(string Check, long At);
