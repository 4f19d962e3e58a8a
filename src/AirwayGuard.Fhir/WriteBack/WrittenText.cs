using System.Globalization;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using Hl7.Fhir.Model;

namespace AirwayGuard.Fhir.WriteBack;

/// <summary>Words, times and references as FHIR takes them.</summary>
internal static class WrittenText
{
    /// <summary>Nobody is to take it for new.</summary>
    public const string KnownLate = "Became known late.";

    /// <summary>The event's time as charted, with its own offset.</summary>
    public static string Time(DateTimeOffset time) => time.ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);

    /// <summary>A dateTime or instant with its offset; fractions only where there are some.</summary>
    public static string Instant(DateTimeOffset time) =>
        time.ToString(time.Ticks % TimeSpan.TicksPerSecond == 0 ? "yyyy-MM-dd'T'HH:mm:sszzz" : "yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture);

    /// <summary>A FHIR string: never empty, without leading or trailing space.</summary>
    public static string? OrNull(string text) => text.Trim() is { Length: > 0 } trimmed ? trimmed : null;

    public static string Join(IEnumerable<string> sentences) => string.Join(' ', sentences.Select(sentence => sentence.Trim()).Where(sentence => sentence.Length > 0));

    public static CodeableConcept Check(string check, string? text) => new(WrittenSystems.Check, check) { Text = text };

    public static Meta MetaOf(string runMode) => new() { Tag = [new Coding(WrittenSystems.RunMode, runMode)] };

    public static IEnumerable<string> Evidence(IEnumerable<MessageEvidence> evidence) =>
        evidence.Where(item => item.Charted.Length > 0).Select(item => $"Charted: {item.Charted}.");

    public static DetectedIssue.DetectedIssueSeverity SeverityOf(Severity severity) => severity switch
    {
        Severity.High => DetectedIssue.DetectedIssueSeverity.High,
        Severity.Moderate => DetectedIssue.DetectedIssueSeverity.Moderate,
        Severity.Low => DetectedIssue.DetectedIssueSeverity.Low,
        _ => throw new ArgumentOutOfRangeException(nameof(severity), severity, "No such severity."),
    };

    /// <summary>Code and display of HL7's flag-priority-code.</summary>
    public static (string Code, string Display) PriorityOf(Severity severity) => severity switch
    {
        Severity.High => ("PH", "High priority"),
        Severity.Moderate => ("PM", "Medium priority"),
        Severity.Low => ("PL", "Low priority"),
        _ => throw new ArgumentOutOfRangeException(nameof(severity), severity, "No such severity."),
    };
}
