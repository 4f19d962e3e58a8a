using System.Text.Encodings.Web;
using System.Text.Json;
using AirwayGuard.Core.Findings;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Explaining;

/// <summary>An explanation as JSON; values and limits as <c>check --format json</c> has them.</summary>
public static class ExplanationJson
{
    public static void Write(Explanation told, Stream into)
    {
        using var json = new Utf8JsonWriter(into, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        WriteFinding(json, told);
        WriteBasis(json, told);
        WriteAirway(json, told.Airway);
        json.WriteStartArray("rows");
        foreach (var row in told.Rows)
        {
            WriteRow(json, row);
        }

        json.WriteEndArray();
        if (told.ClearedBy is { } by)
        {
            json.WritePropertyName("clearedBy");
            WriteRow(json, by);
        }

        json.WriteStartArray("history");
        foreach (var one in told.History)
        {
            json.WriteStartObject();
            json.WriteNumber("auditEntry", one.Entry);
            json.WriteString("at", CheckReportJson.TimeText(one.At.UtcTicks));
            json.WriteString("what", one.What);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("clears", told.Clears.Length > 0 ? told.Clears : null);
        WriteAgain(json, told.Again);
        json.WriteString("caution", CheckReportText.Caution);
        json.WriteEndObject();
    }

    private static void WriteFinding(Utf8JsonWriter json, Explanation told)
    {
        var (record, issue, flag) = (told.Record, told.Content.Issue, told.Content.Flag);
        json.WriteString("finding", record.Key.ToString());
        json.WriteString("resource", record.Kind == FindingKind.CannotTell ? null : ExplanationText.KindWords(record.Kind));
        json.WriteString("partOf", record.Parent == Guid.Empty ? null : record.Parent.ToString());
        json.WriteString("check", record.Check);
        json.WriteString("state", CheckReportJson.StateCode(record.State));
        json.WriteBoolean("sent", told.Content.Sent);
        json.WriteString("patient", told.Patient);
        json.WriteString("at", CheckReportJson.TimeText(record.First));
        json.WriteString("latest", CheckReportJson.TimeText(record.Latest));
        json.WriteNumber("count", record.Count);
        if (told.Missing.Length > 0)
        {
            json.WriteString("missing", told.Missing);
        }

        json.WriteBoolean("late", record.Late);
        json.WriteString("say", told is { Finding: { } finding, Latest: { } said } ? Wording.Say(finding.Rule, said) : issue?.Say ?? flag?.Text);
        json.WriteString("do", told is { Finding: { } asked, Latest: { } of } ? Wording.Do(asked.Rule, of) : issue?.Do);
        if (told is { Finding: { } judged, Latest: { } latest })
        {
            json.WriteString("severity", CheckReportJson.SeverityCode(latest.Severity));
            json.WriteString("ageBand", Wording.Band(latest.Band));
            CheckReportJson.WriteValue(json, judged.Rule, latest);
            CheckReportJson.WriteLimit(json, latest.Limit);
            EstimateJson.Write(json, latest.Estimate);
            json.WriteString("source", latest.Limit.Source);
            json.WriteString("sourceTitle", told.Source.Length > 0 ? told.Source : null);
            json.WriteString("sourceStatus", Wording.Status(latest.Limit.Status) is { Length: > 0 } status ? status : "cited");
        }
        else
        {
            json.WriteString("severity", (issue?.Severity ?? flag?.Severity) is { } severity ? CheckReportJson.SeverityCode(severity) : null);
            json.WriteString("ageBand", issue?.AgeBand);
            EstimateJson.Write(json, issue?.Estimate);
        }
    }

    private static void WriteBasis(Utf8JsonWriter json, Explanation told)
    {
        json.WriteStartObject("ruleSet");
        json.WriteString("name", told.Basis?.RuleSet);
        json.WriteString("version", told.Basis?.RuleSetVersion);
        json.WriteString("sha256", told.Basis?.RuleSetSha256);
        json.WriteString("basis", told.BasisSha256);
        json.WriteEndObject();
        if (told.JudgedSince is { } since)
        {
            json.WriteStartObject("judgedSinceBy");
            json.WriteString("name", since.RuleSet);
            json.WriteString("version", since.RuleSetVersion);
            json.WriteString("sha256", since.RuleSetSha256);
            json.WriteString("basis", since.BasisSha256);
            json.WriteEndObject();
        }
    }

    private static void WriteAirway(Utf8JsonWriter json, ExplainedAirway? airway)
    {
        if (airway is null)
        {
            json.WriteNull("airway");
            return;
        }

        json.WriteStartObject("airway");
        json.WriteString("resource", airway.Name);
        json.WriteString("type", airway.Type.Length > 0 ? airway.Type : null);
        json.WriteString("innerDiameter", airway.InnerDiameter.Length > 0 ? airway.InnerDiameter : null);
        json.WriteBoolean("newerDiameterUnread", airway.NewerUnread);
        json.WriteString("from", airway.From is { } from ? CheckReportJson.TimeText(from) : null);
        json.WriteString("to", airway.To is { } to ? CheckReportJson.TimeText(to) : null);
        json.WriteEndObject();
    }

    private static void WriteRow(Utf8JsonWriter json, ExplainedRow row)
    {
        json.WriteStartObject();
        json.WriteString("resource", row.Name);
        json.WriteString("version", row.Version.Length > 0 ? row.Version : null);
        json.WriteString("concept", row.Concept.Length > 0 ? row.Concept : null);
        json.WriteString("value", row.Value.Length > 0 ? row.Value : null);
        json.WriteString("charted", row.Charted.Length > 0 ? row.Charted : null);
        json.WriteString("happened", row.Happened is { } at ? CheckReportJson.TimeText(at) : null);
        json.WriteString("known", row.Known is { } since ? CheckReportJson.TimeText(since.UtcTicks) : null);
        if (row.Place is { } place)
        {
            json.WriteString("place", place);
        }

        json.WriteEndObject();
    }

    private static void WriteAgain(Utf8JsonWriter json, JudgedAgain? again)
    {
        if (again is null)
        {
            json.WriteNull("judgedAgain");
            return;
        }

        json.WriteStartObject("judgedAgain");
        json.WriteNumber("position", again.UpTo);
        json.WriteString("asOf", CheckReportJson.TimeText(again.AsOf.UtcTicks));
        json.WriteBoolean("same", again.IsSame);
        json.WriteStartArray("differences");
        foreach (var difference in again.Differences)
        {
            json.WriteStringValue(difference);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
