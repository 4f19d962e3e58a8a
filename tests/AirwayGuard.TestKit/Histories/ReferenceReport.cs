using System.Text.Json;

namespace AirwayGuard.TestKit.Histories;

/// <summary>The part of a report that the reference judge and the engine must agree on.</summary>
public sealed record ReferenceReport(JudgedCounts Judged, IReadOnlyList<ReportedFinding> Findings, IReadOnlyList<ReportedCannotTell> CannotTell)
{
    /// <summary>The checks that the reference judge knows: all there are, in the order of the rule sets.</summary>
    public static readonly IReadOnlyList<string> Checks =
    [
        "vacuum-above-ceiling", "ordered-vacuum-above-ceiling", "regulator-on-full-line", "regulator-intermittent", "vacuum-below-useful",
        "vacuum-unit-doubtful", "vacuum-not-checked-before-pass", "vacuum-read-unoccluded", "vacuum-reading-stale",
        "set-and-charted-vacuum-differ", "regulator-calibration-overdue", "wall-supply-low", "wall-supply-unsurveyed", "catheter-too-wide",
        "catheter-does-not-fit", "catheter-narrower-than-useful", "tube-diameter-unknown", "tube-changed-since-catheter-chosen",
        "pass-too-long", "too-many-passes", "rest-between-passes-short", "preoxygenation-missing", "preoxygenation-short",
        "neonate-over-oxygenated", "oxygen-not-returned", "no-indication-charted", "suction-ordered-by-clock", "airway-assessment-overdue",
        "suctioned-too-often", "inserted-too-deep", "safe-depth-not-on-file", "deep-technique-without-reason", "saline-without-reason",
        "saline-dose-high", "open-suction-where-closed-advised", "disconnected-in-lung-injury", "closed-catheter-change-overdue",
        "clean-technique-in-hospital", "bleeding-risk-with-high-vacuum", "suction-soon-after-surfactant",
        "suctioned-despite-order-not-to", "vitals-missing-around-pass", "desaturation-with-suction", "heart-rate-event-with-suction",
        "blood-stained-secretions-trend", "cuff-pressure-out-of-range", "outcome-not-charted", "order-not-machine-readable",
    ];

    /// <summary>What is said of those checks alone; what another check would withhold is not withheld.</summary>
    public ReferenceReport Only(IReadOnlyList<string> checks) => this with
    {
        Findings = [.. Findings.Where(f => checks.Contains(f.Check, StringComparer.Ordinal))
            .Select(f => f.WithheldBy is { } by && !checks.Contains(by, StringComparer.Ordinal) ? f with { WithheldBy = null } : f)],
        CannotTell = [.. CannotTell.Where(c => checks.Contains(c.Check, StringComparer.Ordinal))],
    };

    /// <summary>Reads the JSON of <c>check --format json</c> or of the engine's own report; withdrawn findings are left out.</summary>
    public static ReferenceReport FromJson(string json)
    {
        using var document = JsonDocument.Parse(json);
        var root = document.RootElement;
        var judged = root.GetProperty("judged");
        return new(
            new(judged.GetProperty("passes").GetInt32(), judged.GetProperty("sessions").GetInt32(),
                judged.GetProperty("orders").GetInt32(), judged.GetProperty("settings").GetInt32()),
            [.. root.GetProperty("findings").EnumerateArray().Select(Finding).Where(f => f.State != "withdrawn")],
            [.. root.GetProperty("cannotTell").EnumerateArray().Select(CannotTellEntry)]);
    }

    private static ReportedFinding Finding(JsonElement e)
    {
        var value = e.TryGetProperty("value", out var v) && v.ValueKind == JsonValueKind.Object ? v : default;
        return new(
            Text(e, "check")!, Text(e, "verdict")!, Text(e, "severity")!, Text(e, "patient"), Texts(e, "about"), Time(e, "at"), Time(e, "latest"),
            Text(e, "ageBand")!, Number(value, "value"), Text(value, "unit"), Text(value, "code"), e.GetProperty("count").GetInt32(),
            Text(e, "state")!, Text(e, "withheldBy"));
    }

    private static ReportedCannotTell CannotTellEntry(JsonElement e) =>
        new(Text(e, "check")!, Text(e, "patient"), Time(e, "at"), e.GetProperty("count").GetInt32());

    private static DateTimeOffset Time(JsonElement e, string name) => e.GetProperty(name).GetDateTimeOffset().ToUniversalTime();

    private static string? Text(JsonElement e, string name) =>
        e.ValueKind == JsonValueKind.Object && e.TryGetProperty(name, out var v) && v.ValueKind == JsonValueKind.String ? v.GetString() : null;

    private static decimal? Number(JsonElement e, string name) =>
        e.ValueKind == JsonValueKind.Object && e.TryGetProperty(name, out var v) && v.ValueKind == JsonValueKind.Number ? v.GetDecimal() : null;

    private static IReadOnlyList<string> Texts(JsonElement e, string name) =>
        e.TryGetProperty(name, out var v) ? [.. v.EnumerateArray().Select(t => t.GetString()!)] : [];
}

/// <summary>What was judged.</summary>
public sealed record JudgedCounts(int Passes, int Sessions, int Orders, int Settings);

/// <summary>One finding, fields as in the report. <paramref name="About"/> holds the anchors only in a reference report.</summary>
public sealed record ReportedFinding(
    string Check, string Verdict, string Severity, string? Patient, IReadOnlyList<string> About, DateTimeOffset At, DateTimeOffset Latest,
    string AgeBand, decimal? Value, string? Unit, string? Code, int Count, string State, string? WithheldBy);

/// <summary>One entry of cannotTell, fields as in the report.</summary>
public sealed record ReportedCannotTell(string Check, string? Patient, DateTimeOffset At, int Count);

/// <summary>The setting <c>--unknown-age</c>.</summary>
public enum UnknownAge
{
    CannotTell,
    StrictestBand,
}

/// <summary>A judge behind FHIR JSON: the engine, or anything compared with it.</summary>
/// <param name="resources">One FHIR resource or Bundle each, as JSON.</param>
/// <param name="ruleSet"><c>strict-ranges</c> or <c>guideline-2022</c>.</param>
public delegate ReferenceReport JudgeResources(IReadOnlyList<string> resources, string ruleSet, DateTimeOffset? asOf, UnknownAge unknownAge);
