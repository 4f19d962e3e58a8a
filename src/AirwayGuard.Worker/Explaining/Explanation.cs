using System.Collections.Immutable;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Explaining;

/// <summary>Everything a person asks of one finding: what was found, on what, what became of it, and whether it comes out again.</summary>
/// <param name="Basis">Names of what the judgement went by whose words the record holds; null where its record holds none.</param>
/// <param name="BasisSha256">Its hash.</param>
/// <param name="Finding">As judged again; null where it does not come out the same, or was not judged again.</param>
/// <param name="Latest">The occurrence itself; of a spell its latest one.</param>
/// <param name="Rows">What it rests on.</param>
/// <param name="ClearedBy">The row that ended it, or null.</param>
/// <param name="Clears">What would end it, in a clinician's words; empty where its rule is not at hand.</param>
/// <param name="Source">Title of what the limit rests on, or empty.</param>
/// <param name="Again">Null where it was not judged again.</param>
public sealed record Explanation(
    FindingRecord Record,
    FindingContent Content,
    string Patient,
    MessageBasis? Basis,
    string BasisSha256,
    DerivedFinding? Finding,
    Occurrence? Latest,
    ExplainedAirway? Airway,
    ImmutableArray<ExplainedRow> Rows,
    ExplainedRow? ClearedBy,
    ImmutableArray<ExplainedEvent> History,
    string Clears,
    string Source,
    JudgedAgain? Again)
{
    /// <summary>Names of what it was judged by since, which left its words as they were; null where nothing did.</summary>
    public MessageBasis? JudgedSince => Content.Said is null ? null : Content.Basis;

    /// <summary>For what could not be told: what was lacking, in words; empty for a breach.</summary>
    public string Missing => Record.Kind == FindingKind.CannotTell ? string.Join(", ", Content.Missing.Select(MissingWords.Of)) : "";

    /// <summary>Says its check only.</summary>
    public override string ToString() => $"Explanation({Record.Check})";
}

/// <summary>The artificial airway in use when it happened.</summary>
/// <param name="Name"><c>Type/id</c> of its Device, else of the row that first told of it.</param>
/// <param name="Type">tracheal-tube, tracheostomy-tube, or empty.</param>
/// <param name="InnerDiameter">As charted; empty where it is not.</param>
/// <param name="NewerUnread">A newer row of its diameter cannot be read, or two of one instant differ: it was unknown then.</param>
/// <param name="From">UTC ticks; null where no start is charted.</param>
/// <param name="To">UTC ticks; null while it is in use.</param>
public sealed record ExplainedAirway(string Name, string Type, string InnerDiameter, bool NewerUnread, long? From, long? To);

/// <summary>One row it rests on.</summary>
/// <param name="Name"><c>Type/id</c>.</param>
/// <param name="Version">The version that was known then; empty where the source gave none.</param>
/// <param name="Concept">What it was read as; empty where only the reference is on record.</param>
/// <param name="Value">In its one form; empty where only the reference is on record.</param>
/// <param name="Charted">As charted, or empty.</param>
/// <param name="Happened">UTC ticks; null for what holds without a time.</param>
/// <param name="Known">When it became known; null where its arrival was purged.</param>
public sealed record ExplainedRow(string Name, string Version, string Concept, string Value, string Charted, long? Happened, DateTimeOffset? Known)
{
    /// <summary>Where in an order's text it was read, with the text; null of what is coded.</summary>
    public string? Place { get; init; }

    /// <summary>Says its name only.</summary>
    public override string ToString() => Name;
}

/// <summary>One thing that happened to it, as the audit trail has it.</summary>
/// <param name="Entry">Number of the audit entry.</param>
public sealed record ExplainedEvent(long Entry, DateTimeOffset At, string What);

/// <summary>What judging again gave.</summary>
/// <param name="UpTo">Position up to which the ledger was known then.</param>
/// <param name="AsOf">The time judged at then.</param>
/// <param name="Differences">Precisely what is not the same; empty for the same result.</param>
public sealed record JudgedAgain(long UpTo, DateTimeOffset AsOf, ImmutableArray<string> Differences)
{
    public bool IsSame => Differences.IsEmpty;
}
