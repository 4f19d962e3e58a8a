using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Shipped;

/// <summary>What a source says of one measure, stated from the source and not from the rule sets.</summary>
/// <param name="Source">Its id in the rule sets.</param>
/// <param name="Measure">What it speaks of; several joined by commas where it is said once for them.</param>
/// <param name="Bands">The bands that are judged by it: N neonate, I infant, C child, A adult.</param>
/// <param name="Says">
/// <c>below</c>, <c>at most</c>, <c>at least</c>, <c>within … to</c> a figure with its unit, for what a policy keeps to; <c>event below</c>,
/// <c>event above</c>, <c>event from</c> for what counts as an event; <c>charted</c>, <c>not</c> or <c>only</c> a code.
/// </param>
/// <param name="Known">
/// O read in an excerpt of the source, Q read in another publication that quotes it, R recalled, the source was not opened, D read, and
/// another publication of the same source prints another figure, P common practice, no source found.
/// </param>
/// <param name="Cited">Where it is printed; the rule sets name the same place.</param>
public sealed record PublishedFigure(string Source, string Measure, string Bands, string Says, char Known, string Cited)
{
    /// <summary>The status that follows from how the figure is known.</summary>
    public SourceStatus Status => Known switch
    {
        'O' or 'Q' => SourceStatus.Cited,
        'R' => SourceStatus.FromMemory,
        'D' => SourceStatus.Disputed,
        'P' => SourceStatus.CommonPractice,
        _ => throw new InvalidOperationException($"{Source} of {Measure} is known in no known way."),
    };

    /// <summary>The comparison that breaches, with its figure, as the table of limits prints one.</summary>
    /// <param name="itself">Whether the figure itself is within, where the source says below.</param>
    public string Breach(bool itself = false)
    {
        (string Words, string Breaches)[] ways =
        [
            ("event below ", "Below "), ("event above ", "Above "), ("event from ", "AtOrAbove "), ("at most ", "Above "), ("at least ", "Below "),
            ("below ", itself ? "Above " : "AtOrAbove "), ("within ", "Outside "), ("not ", "Is "), ("only ", "IsNot "), ("charted", "Missing"),
        ];
        var (words, breaches) = ways.First(way => Says.StartsWith(way.Words, StringComparison.Ordinal));
        return breaches + Says[words.Length..];
    }
}
