using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Fhir.Reading;

namespace AirwayGuard.Worker.Checking;

/// <summary>The report as JSON; its names are public and final.</summary>
public static class CheckReportJson
{
    public static void Write(CheckReport report, Stream into)
    {
        using var json = new Utf8JsonWriter(into, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        WriteRuleSet(json, report.Rules);
        WriteTime(json, "asOf", report.AsOf);
        json.WriteStartObject("judged");
        json.WriteNumber("passes", report.Judged.Passes);
        json.WriteNumber("sessions", report.Judged.Sessions);
        json.WriteNumber("orders", report.Judged.Orders);
        json.WriteNumber("settings", report.Judged.Settings);
        json.WriteEndObject();
        json.WriteStartObject("raised");
        json.WriteNumber("findings", report.Findings.Length);
        json.WriteNumber("shown", report.Findings.Length - report.Withheld);
        json.WriteNumber("withheld", report.Withheld);
        json.WriteEndObject();
        WriteFindings(json, report);
        WriteCannotTell(json, report);
        json.WriteStartArray("orders");
        foreach (var order in report.Orders)
        {
            WriteOrder(json, order);
        }

        json.WriteEndArray();
        json.WriteStartArray("problems");
        foreach (var problem in report.Problems)
        {
            json.WriteStartObject();
            json.WriteString("code", problem.Code.Id);
            json.WriteString("where", problem.Where);
            json.WriteString("why", problem.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("notMapped");
        foreach (var one in report.NotMapped)
        {
            json.WriteStartObject();
            json.WriteString("code", one.Code.Length == 0 ? null : one.Code);
            json.WriteNumber("count", one.Rows);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>By which rule set was judged.</summary>
    public static void WriteRuleSet(Utf8JsonWriter json, RuleSet rules)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(rules);
        json.WriteStartObject("ruleSet");
        json.WriteString("name", rules.Name);
        json.WriteString("version", rules.Version);
        json.WriteString("sha256", rules.Sha256);
        json.WriteEndObject();
    }

    private static void WriteFindings(Utf8JsonWriter json, CheckReport report)
    {
        json.WriteStartArray("findings");
        foreach (var reported in report.Findings)
        {
            var (finding, latest) = (reported.Finding, reported.Finding.Latest);
            json.WriteStartObject();
            json.WriteString("check", finding.Rule.Id);
            json.WriteString("verdict", "breach");
            json.WriteString("severity", SeverityCode(latest.Severity));
            json.WriteString("patient", reported.Patient);
            WriteStrings(json, "about", reported.About);
            json.WriteString("at", TimeText(finding.First.At));
            json.WriteString("latest", TimeText(latest.At));
            json.WriteString("ageBand", Wording.Band(latest.Band));
            WriteValue(json, finding.Rule, latest);
            json.WriteString("charted", reported.Charted);
            WriteLimit(json, latest.Limit);
            json.WriteNumber("count", finding.Occurrences.Length);
            json.WriteString("state", StateCode(finding.State));
            json.WriteString("say", Wording.Say(finding.Rule, latest));
            json.WriteString("do", Wording.Do(finding.Rule, latest));
            WriteStrings(json, "sources", [latest.Limit.Source]);
            EstimateJson.Write(json, latest.Estimate);
            if (reported.Late)
            {
                json.WriteBoolean("late", true);
            }

            if (finding.IsWithheld)
            {
                json.WriteString("withheldBy", finding.Rule.WithheldBy);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteCannotTell(Utf8JsonWriter json, CheckReport report)
    {
        json.WriteStartArray("cannotTell");
        foreach (var reported in report.CannotTell)
        {
            json.WriteStartObject();
            json.WriteString("check", reported.CannotTell.Rule.Id);
            json.WriteString("patient", reported.Patient);
            json.WriteString("at", TimeText(reported.CannotTell.At));
            json.WriteString("missing", reported.Missing);
            json.WriteNumber("count", reported.CannotTell.Count);
            WriteStrings(json, "about", reported.About);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    internal static void WriteValue(Utf8JsonWriter json, Rule rule, Occurrence occurrence)
    {
        if (occurrence.Code is { } code && occurrence.Value is null && !rule.Criteria[0].Measure.ShowsNoValue)
        {
            json.WriteStartObject("value");
            json.WriteString("code", code);
            json.WriteEndObject();
        }
        else if (occurrence.Value is { } value)
        {
            json.WriteStartObject("value");
            json.WritePropertyName("value");
            json.WriteRawValue(Wording.Rounded(value, 3));
            json.WriteString("unit", occurrence.Unit switch
            {
                Unit.None => null,
                Unit.Unknown => "unit not recognised",
                _ => Units.Ucum(occurrence.Unit),
            });
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("value");
        }
    }

    internal static void WriteLimit(Utf8JsonWriter json, Limit limit)
    {
        json.WriteStartObject("limit");
        json.WriteString("comparison", ComparisonCode(limit.Comparison));
        switch (limit.Comparison)
        {
            case Comparison.Is or Comparison.IsNot:
                json.WriteString("code", limit.Code);
                break;
            case Comparison.Outside:
                json.WritePropertyName("low");
                json.WriteRawValue(Wording.Rounded(limit.Low, 6));
                json.WritePropertyName("high");
                json.WriteRawValue(Wording.Rounded(limit.High, 6));
                json.WriteString("unit", Units.Ucum(limit.Unit));
                break;
            case Comparison.Missing:
                break;
            default:
                json.WritePropertyName("value");
                json.WriteRawValue(Wording.Rounded(limit.Low, 6));
                json.WriteString("unit", Units.Ucum(limit.Unit));
                break;
        }

        json.WriteEndObject();
    }

    private static void WriteOrder(Utf8JsonWriter json, OrderWords order)
    {
        json.WriteStartObject();
        json.WriteString("order", order.Order);
        json.WriteNumber("part", order.Part);
        WriteNumber(json, "vacuumLow", order.VacuumLow);
        WriteNumber(json, "vacuumHigh", order.VacuumHigh);
        WriteMark(json, "vacuumExclusive", order.VacuumExclusive);
        json.WriteString("vacuumUnit", order.VacuumUnit);
        WriteNumber(json, "catheterFr", order.CatheterFr);
        WriteNumber(json, "everyHours", order.EveryHours);
        WriteMark(json, "byClock", order.ByClock);
        WriteMark(json, "asNeeded", order.AsNeeded);
        WriteMark(json, "saline", order.Saline);
        json.WriteString("system", order.System);
        if (order.Depth is { } depth && depth.EndsWith(" cm", StringComparison.Ordinal)
            && decimal.TryParse(depth[..^3], NumberStyles.Number, CultureInfo.InvariantCulture, out var centimetres))
        {
            WriteNumber(json, "depth", centimetres);
        }
        else
        {
            json.WriteString("depth", order.Depth);
        }

        WriteMark(json, "preoxygenate", order.Preoxygenate);
        WriteMark(json, "doNotSuction", order.DoNotSuction);
        WriteStrings(json, "unread", order.Unread);
        json.WriteEndObject();
    }

    private static void WriteNumber(Utf8JsonWriter json, string name, decimal? value)
    {
        json.WritePropertyName(name);
        if (value is { } number)
        {
            json.WriteRawValue(Wording.Rounded(number, 6));
        }
        else
        {
            json.WriteNullValue();
        }
    }

    private static void WriteMark(Utf8JsonWriter json, string name, bool? mark)
    {
        if (mark is { } value)
        {
            json.WriteBoolean(name, value);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void WriteStrings(Utf8JsonWriter json, string name, IEnumerable<string> values)
    {
        json.WriteStartArray(name);
        foreach (var value in values)
        {
            json.WriteStringValue(value);
        }

        json.WriteEndArray();
    }

    private static void WriteTime(Utf8JsonWriter json, string name, DateTimeOffset? time)
    {
        if (time is { } at)
        {
            json.WriteString(name, TimeText(at.UtcTicks));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>UTC, seconds, with fractions only where there are any.</summary>
    internal static string TimeText(long utcTicks) =>
        new DateTime(utcTicks, DateTimeKind.Utc).ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", CultureInfo.InvariantCulture);

    internal static string SeverityCode(Severity severity) => severity switch
    {
        Severity.High => "high",
        Severity.Moderate => "moderate",
        _ => "low",
    };

    internal static string StateCode(FindingState state) => state switch
    {
        FindingState.Cleared => "cleared",
        FindingState.Withdrawn => "withdrawn",
        FindingState.ClosedByPerson => "closed-by-person",
        _ => "open",
    };

    private static string ComparisonCode(Comparison comparison) => comparison switch
    {
        Comparison.AtOrAbove => "atOrAbove",
        Comparison.AtOrBelow => "atOrBelow",
        Comparison.IsNot => "isNot",
        Comparison.Above => "above",
        Comparison.Below => "below",
        Comparison.Outside => "outside",
        Comparison.Is => "is",
        _ => "missing",
    };
}
