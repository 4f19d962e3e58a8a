using System.Collections.Immutable;

namespace AirwayGuard.Rules.Cases;

/// <summary>The cases of one file, or every fault found in it.</summary>
/// <param name="Also">Name of a shipped set whose cases hold here too, as far as the checks they are about are the same; empty for none.</param>
internal sealed record CaseFile(string File, string Also, ImmutableArray<Case> Cases, IReadOnlyList<RuleSetFault> Faults)
{
    /// <summary>False where the file could not be opened at all.</summary>
    public bool Opened { get; init; } = true;
}
