using System.Collections.Immutable;

namespace AirwayGuard.Core.Judging;

/// <summary>The severity of a breach: one word, or raised in steps as the value passes further marks.</summary>
/// <param name="Base">Of every breach.</param>
/// <param name="Steps">Higher severities, each from values strictly above its mark, in the limit's unit.</param>
public sealed record SeveritySteps(Severity Base, ImmutableArray<SeverityStep> Steps)
{
    public static SeveritySteps Always(Severity severity) => new(severity, []);
}

/// <param name="Above">Strictly above this the severity holds; in the limit's unit.</param>
public sealed record SeverityStep(Severity Severity, decimal Above);
