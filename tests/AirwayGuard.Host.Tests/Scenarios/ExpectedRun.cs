using System.Collections.Immutable;
using System.Text.Json;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>One call of <c>check</c> on a scenario's input and what it must print. The lists are complete; their entries may leave members out.</summary>
/// <param name="Rules">Name of the rule set.</param>
/// <param name="AsOf">Value of <c>--as-of</c>; null leaves the option out.</param>
/// <param name="UnknownAge">Value of <c>--unknown-age</c>; null leaves the option out.</param>
/// <param name="Exit">Exit code.</param>
/// <param name="Judged">Counts of what was judged.</param>
/// <param name="Covers">The checks whose entries are listed, besides those named in the lists themselves.</param>
/// <param name="Others">How many findings and cannot-tells every other check has; null where all entries are listed.</param>
public sealed record ExpectedRun(
    string Rules,
    string? AsOf,
    string? UnknownAge,
    int Exit,
    JsonElement Judged,
    ImmutableArray<JsonElement> Findings,
    ImmutableArray<JsonElement> CannotTell,
    ImmutableArray<JsonElement> Problems,
    ImmutableArray<string> Covers,
    JsonElement? Others)
{
    /// <summary>True where a check's entries are compared one by one, and not only counted.</summary>
    public bool Lists(string check) => Others is null || Covers.Contains(check, StringComparer.Ordinal)
        || Findings.Concat(CannotTell).Any(entry => entry.GetProperty("check").ValueEquals(check));

    /// <summary>The options as typed, to tell runs of one scenario apart.</summary>
    public override string ToString() =>
        Rules + (AsOf is null ? "" : " --as-of " + AsOf) + (UnknownAge is null ? "" : " --unknown-age " + UnknownAge);
}
