using System.Text.Encodings.Web;
using System.Text.Json;
using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Overrides;

/// <summary>The figures as JSON; its names are public and final. Rates are fractions of one, to four places.</summary>
public static class OverrideJson
{
    public static void Write(OverrideReport report, Stream into)
    {
        using var json = new Utf8JsonWriter(into, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        json.WriteString("since", TimeOf(report.Since));
        json.WriteString("until", TimeOf(report.Until));
        json.WriteStartArray("checks");
        foreach (var check in report.Checks)
        {
            Write(json, check);
        }

        json.WriteEndArray();
        json.WriteStartObject("all");
        WriteCounts(json, report.All);
        WriteRate(json, report.All);
        json.WriteEndObject();
        json.WriteStartObject("notJudged");
        WriteCounts(json, report.NotJudged);
        json.WriteEndObject();
        json.WriteStartObject("givenByHook");
        foreach (var hook in report.Hooks)
        {
            json.WriteNumber(hook.Hook, hook.Given);
        }

        json.WriteEndObject();
        WriteComments(json, report);
        json.WriteString("caution", OverrideText.Caution);
        json.WriteEndObject();
    }

    internal static string OutcomeCode(CardOutcome outcome) => outcome == CardOutcome.Accepted ? "accepted" : "overridden";

    internal static decimal Rounded(double share) => Math.Round((decimal)share, 4, MidpointRounding.AwayFromZero);

    private static void Write(Utf8JsonWriter json, CheckFigures check)
    {
        json.WriteStartObject();
        json.WriteString("check", check.Check);
        WriteCounts(json, check.Counts);
        WriteRate(json, check.Counts);
        json.WriteStartArray("reasons");
        foreach (var reason in check.Reasons)
        {
            json.WriteStartObject();
            json.WriteString("reason", reason.Reason.Full);
            json.WriteNumber("count", reason.Count);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteCounts(Utf8JsonWriter json, CardCounts counts)
    {
        json.WriteNumber("given", counts.Given);
        json.WriteNumber("accepted", counts.Accepted);
        json.WriteNumber("overridden", counts.Overridden);
        json.WriteNumber("answered", counts.Answered);
        json.WriteNumber("notAnswered", counts.NotAnswered);
    }

    private static void WriteRate(Utf8JsonWriter json, CardCounts counts)
    {
        if (counts is not { OverrideRate: { } rate, Interval: { } interval })
        {
            json.WriteNull("overrideRate");
            json.WriteNull("interval95");
            return;
        }

        json.WriteNumber("overrideRate", Rounded(rate));
        json.WriteStartObject("interval95");
        json.WriteNumber("low", Rounded(interval.Low));
        json.WriteNumber("high", Rounded(interval.High));
        json.WriteEndObject();
    }

    private static void WriteComments(Utf8JsonWriter json, OverrideReport report)
    {
        if (report.Comments is not { } comments)
        {
            return;
        }

        json.WriteStartArray("comments");
        foreach (var one in comments)
        {
            json.WriteStartObject();
            json.WriteString("card", one.Card.ToString("D"));
            json.WriteString("check", one.Check.Length == 0 ? null : one.Check);
            json.WriteString("at", TimeOf(one.At));
            json.WriteString("outcome", OutcomeCode(one.Outcome));
            json.WriteString("reason", one.Reason.Full);
            json.WriteString("comment", one.Comment);
            json.WriteBoolean("superseded", one.IsSuperseded);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static string? TimeOf(DateTimeOffset? at) => at is { } time ? CheckReportJson.TimeText(time.UtcTicks) : null;
}
