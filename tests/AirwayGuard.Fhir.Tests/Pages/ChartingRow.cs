using AirwayGuard.Fhir.Terminology;

namespace AirwayGuard.Fhir.Tests.Pages;

/// <summary>The example row of a note: a valid FHIR R4 Observation.</summary>
internal static class ChartingRow
{
    private const string From = "2026-03-01T09:55:00+11:00";

    public static string Write(ChartingNote note) => Write(note, CodeSystems.AirwayCare, note.Code);

    /// <summary>The same row under another code.</summary>
    public static string Write(ChartingNote note, string system, string code)
    {
        var time = note.Until is null ? $"\"effectiveDateTime\":\"{From}\"" : $"\"effectivePeriod\":{{\"start\":\"{From}\",\"end\":\"{note.Until}\"}}";
        var value = note.Value.Length == 0 ? "" : $",\n {note.Value}";
        var device = note.Device is null ? "" : $",\n \"device\":{{\"reference\":\"{note.Device}\"}}";
        return $$"""
            {"resourceType":"Observation","id":"row-1","status":"final",
             "code":{"coding":[{"system":"{{system}}","code":"{{code}}"}]},
             "subject":{"reference":"{{note.Subject}}"},{{time}}{{value}}{{device}}}
            """.ReplaceLineEndings("\n");
    }
}
