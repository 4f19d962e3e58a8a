using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>The same content as <see cref="CompareText"/> for programs.</summary>
internal static class CompareJson
{
    // Printed for a terminal or a file, never into a page.
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(RuleSetComparison comparison, TextWriter output)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Options))
        {
            json.WriteStartObject();
            Set(json, "from", comparison.From);
            Set(json, "to", comparison.To);
            json.WriteBoolean("equal", comparison.AreEqual);
            json.WriteStartArray("checks");
            foreach (var check in comparison.Checks.Where(check => check.Fate != Fate.Unchanged))
            {
                One(json, check);
            }

            json.WriteEndArray();
            Sums(json, comparison);
            json.WriteString("note", RulesPage.Caution);
            json.WriteEndObject();
        }

        output.WriteLine(Encoding.UTF8.GetString(bytes.ToArray()));
    }

    private static void Set(Utf8JsonWriter json, string key, RuleSetReading reading)
    {
        json.WriteStartObject(key);
        json.WriteString("name", reading.RuleSet!.Name);
        json.WriteString("version", reading.RuleSet.Version);
        json.WriteString("title", reading.Title);
        json.WriteString("sha256", reading.RuleSet.Sha256);
        json.WriteEndObject();
    }

    private static void One(Utf8JsonWriter json, CheckComparison check)
    {
        json.WriteStartObject();
        json.WriteString("check", check.Id);
        json.WriteString("name", check.Name);
        json.WriteString("fate", Lower(check.Fate));
        if (check.Fate != Fate.Changed)
        {
            json.WriteString("direction", Lower(check.Direction));
        }

        json.WriteStartArray("changes");
        foreach (var change in check.Changes)
        {
            One(json, change, check.Fate == Fate.Changed);
        }

        json.WriteEndArray();
        json.WriteStartArray("stays");
        foreach (var stays in check.Stays)
        {
            json.WriteStringValue(stays);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void One(Utf8JsonWriter json, Change change, bool hasDirection)
    {
        json.WriteStartObject();
        json.WriteString("what", change.Aspect);
        Bands(json, change.Bands);
        json.WriteString("sentence", change.Sentence);
        if (hasDirection)
        {
            json.WriteString("direction", Lower(change.Direction));
        }

        json.WriteString("from", change.From);
        json.WriteString("to", change.To);
        Grounds(json, "was", change.Was);
        Grounds(json, "now", change.Now);
        json.WriteEndObject();
    }

    private static void Grounds(Utf8JsonWriter json, string key, ImmutableArray<Ground> grounds)
    {
        json.WriteStartArray(key);
        foreach (var ground in grounds)
        {
            json.WriteStartObject();
            Bands(json, ground.Bands);
            json.WriteString("source", ground.Source);
            json.WriteString("title", ground.Title);
            json.WriteString("status", Words.Of(Words.Statuses, ground.Status));
            json.WriteString("statusInWords", LimitWords.Status(ground.Status));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Bands(Utf8JsonWriter json, ImmutableArray<AgeBand> bands)
    {
        json.WriteStartArray("bands");
        foreach (var band in bands)
        {
            json.WriteStringValue(Words.Of(Words.Bands, band));
        }

        json.WriteEndArray();
    }

    private static void Sums(Utf8JsonWriter json, RuleSetComparison comparison)
    {
        json.WriteStartObject("sums");
        Sum(json, "limits", comparison.Limits);
        Sum(json, "otherChanges", comparison.Others);
        json.WriteStartObject("checks");
        foreach (var fate in Enum.GetValues<Fate>())
        {
            json.WriteNumber(Lower(fate), comparison.CountOf(fate));
        }

        json.WriteEndObject();
        json.WriteString("sentence", CompareText.Sums(comparison));
        json.WriteEndObject();
    }

    private static void Sum(Utf8JsonWriter json, string key, Func<Direction, int> count)
    {
        json.WriteStartObject(key);
        foreach (var direction in Enum.GetValues<Direction>())
        {
            json.WriteNumber(Lower(direction), count(direction));
        }

        json.WriteEndObject();
    }

    private static string Lower<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();
}
