using System.Collections.Immutable;

namespace AirwayGuard.Core.SignOffs;

/// <summary>One act of a named person on a rule set, as it is kept for good.</summary>
/// <param name="At">When, by the clock of the machine.</param>
/// <param name="Sha256">Of the whole document of the set it is about, lower-case hex.</param>
/// <param name="Checks">Ids of checks; empty for all of the set.</param>
/// <param name="Units">Places as charting names them, such as <c>Location/icu</c>; empty for all.</param>
/// <param name="By">Who answers for it. 1 to 100 characters.</param>
/// <param name="Reason">1 to 500 characters; names no patient.</param>
public sealed record SignOff(
    DateTimeOffset At, SignOffAct Act, string Name, string Version, string Sha256, ImmutableArray<string> Checks, ImmutableArray<string> Units, string By, string Reason)
{
    /// <summary>Whether it is about a check at one of these places.</summary>
    public bool Covers(string check, IEnumerable<string> places) =>
        (Checks.IsEmpty || Checks.Contains(check, StringComparer.Ordinal)) && (Units.IsEmpty || Units.Any(unit => places.Contains(unit, StringComparer.Ordinal)));
}
