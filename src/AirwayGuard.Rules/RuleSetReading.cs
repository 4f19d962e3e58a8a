using System.Collections.Immutable;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules;

/// <summary>What came of reading a rule-set document: a rule set, or every fault found, in the document's order.</summary>
/// <param name="File">The document's name as it was given; of a shipped set its name.</param>
/// <param name="Title">The document's own title; empty where it could not be read.</param>
/// <param name="RuleSet">Null where there is any fault: a set is never used in part.</param>
public sealed record RuleSetReading(string File, string Title, RuleSet? RuleSet, IReadOnlyList<RuleSetFault> Faults)
{
    /// <summary>What may be a slip and is no fault: the set is used as it stands.</summary>
    public IReadOnlyList<RuleSetFault> Notes { get; init; } = [];

    /// <summary>False where the file could not be opened at all, so that nothing is known about its content.</summary>
    public bool Opened { get; init; } = true;

    /// <summary>The whole document: the bytes that were read, or with what it starts from laid in; empty where the file could not be opened.</summary>
    public ReadOnlyMemory<byte> Document { get; init; }

    /// <summary>
    /// Where a document starts from another: by rule (<c>id</c>), by key of it (<c>id|above</c>) and by band (<c>id|above|adult</c>) the name
    /// and version of the document that states it, the nearest that is there counts. Empty for one that starts from none.
    /// </summary>
    public IReadOnlyDictionary<string, string> Origins { get; init; } = ImmutableDictionary<string, string>.Empty;

    /// <summary>Names of the documents it starts from, the nearest first; empty for one that starts from none.</summary>
    public ImmutableArray<string> StartsFrom { get; init; } = [];

    /// <summary>Each rule's own text; equal texts are equal rules.</summary>
    internal IReadOnlyDictionary<string, string> RuleTexts { get; init; } = ImmutableDictionary<string, string>.Empty;
}
