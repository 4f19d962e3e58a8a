using System.Text.Encodings.Web;
using System.Text.Json;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Worker.Surveying;

/// <summary>The survey as JSON; its names are public and final.</summary>
public static class SurveyJson
{
    public static void Write(SurveyReport report, Stream into)
    {
        using var json = new Utf8JsonWriter(into, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        CheckReportJson.WriteRuleSet(json, report.Rules);
        json.WriteString("asOf", report.AsOf is { } at ? CheckReportJson.TimeText(at.UtcTicks) : null);
        json.WriteStartArray("units");
        foreach (var unit in report.Units)
        {
            json.WriteStartObject();
            json.WriteString("unit", OrNull(unit.Unit));
            json.WriteString("name", OrNull(unit.Name));
            json.WriteStartArray("outlets");
            foreach (var outlet in unit.Outlets)
            {
                Write(json, outlet);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("caution", CheckReportText.Caution);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SurveyedOutlet outlet)
    {
        json.WriteStartObject();
        json.WriteString("outlet", outlet.Outlet);
        json.WriteString("place", OrNull(outlet.Place));
        json.WriteString("placeName", OrNull(outlet.PlaceName));
        Write(json, "reading", outlet.Reading, outlet.Age);
        json.WriteStartArray("regulators");
        foreach (var regulator in outlet.Regulators)
        {
            json.WriteStartObject();
            json.WriteString("regulator", regulator.Regulator);
            json.WriteBoolean("namedWithReading", regulator.Named);
            Write(json, "set", regulator.Set, age: null);
            json.WriteString("mode", regulator.Mode is { } mode ? Answers.Code(mode.Value.Symbol) : null);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Write(json, "supply", outlet.Supply);
        Write(json, "survey", outlet.Survey);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Fact? row, TimeSpan? age)
    {
        if (row is not { } fact)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WritePropertyName("value");
        json.WriteRawValue(Wording.Rounded(fact.Value.Magnitude, 3));
        json.WriteString("unit", fact.Value.Unit is Unit.None or Unit.Unknown ? null : Units.Ucum(fact.Value.Unit));
        json.WriteString("charted", FactWords.Of(fact.Value));
        json.WriteString("at", CheckReportJson.TimeText(fact.EffectiveFrom));
        if (age is { } passed)
        {
            json.WriteNumber("minutesAgo", (long)passed.TotalMinutes);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, SurveyVerdict verdict)
    {
        json.WriteStartObject(name);
        json.WriteString("check", OrNull(verdict.Check));
        json.WriteString("answer", verdict.Answer switch
        {
            SurveyAnswer.Breach => "breach",
            SurveyAnswer.Pass => "in-order",
            SurveyAnswer.CannotTell => "cannot-tell",
            _ => "not-judged",
        });
        if (verdict.Limit is { } limit)
        {
            CheckReportJson.WriteLimit(json, limit);
        }
        else
        {
            json.WriteNull("limit");
        }

        json.WriteString("say", OrNull(verdict.Say));
        json.WriteString("missing", OrNull(verdict.Missing));
        json.WriteEndObject();
    }

    private static string? OrNull(string text) => text.Length == 0 ? null : text;
}
