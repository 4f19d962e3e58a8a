using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules;

/// <summary>One thing wrong with a rule-set document, where, and what would be right.</summary>
/// <param name="Code">A code of AG3xxx.</param>
/// <param name="File">The document's name as it was given.</param>
/// <param name="Line">From 1; 0 where the fault is the file's as a whole.</param>
/// <param name="Column">From 1, in UTF-16 units; 0 where the fault is the file's as a whole.</param>
/// <param name="What">What is wrong, in one sentence.</param>
/// <param name="Allowed">What is allowed instead.</param>
public sealed record RuleSetFault(DiagnosticCode Code, string File, int Line, int Column, string What, string Allowed)
{
    /// <summary>One line: <c>file:line:column: CODE what; allowed</c>.</summary>
    public override string ToString() => Line == 0
        ? $"{File}: {Code.Id} {What} {Allowed}"
        : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{File}:{Line}:{Column}: {Code.Id} {What} {Allowed}");
}
