using System.Text.Json.Nodes;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>
/// Single values. The reader takes every value as the text that is written; an editor sees <c>1.0</c> as a number and, by the older
/// YAML, <c>yes</c> as a mark. Both must be taken wherever the text would be. A value that is empty is refused, and so is an unquoted null.
/// </summary>
internal static class Scalars
{
    public const string Text = "text", Sentence = "sentence", Id = "id", Wait = "wait", Hold = "hold", Mark = "mark";

    private static readonly string[] Yes = ["yes", "true", "on"];
    private static readonly string[] No = ["no", "false", "off"];

    public static IEnumerable<(string Name, JsonNode Schema)> Definitions()
    {
        yield return (Text, Written(Patterns.NotBlank).Described("A text that is not blank."));
        yield return (Sentence, new JsonObject
        {
            ["description"] = $"A sentence. It may name {string.Join(", ", Placeholders.Known)}; other braces are refused.",
            ["allOf"] = new JsonArray(Json.Ref(Text), new JsonObject { ["pattern"] = Patterns.Sentence }),
        });
        var id = Written(KebabId.Pattern).Described("Lower-case letters, digits and single hyphens.");
        id["maxLength"] = KebabId.MostLength;
        yield return (Id, id);
        yield return (Wait, String(Patterns.SpanTo(Span.MostWait)).Described($"Whole min or h, at most {Words.Number((decimal)Span.MostWait.TotalHours)} h, such as 2 h."));
        yield return (Hold, String(Patterns.SpanTo(Span.MostHold)).Described($"Whole min or h, at most {Words.Number((decimal)Span.MostHold.TotalHours)} h, such as 3 min."));
        yield return (Mark, Json.AnyOf(Bare(), String(Patterns.Mark)).Described("A number, alone or with the unit of the limits."));
    }

    /// <summary>Words of a list, and marks where one of them reads as a mark.</summary>
    public static JsonObject WordsOf(IReadOnlyCollection<string> words)
    {
        var listed = Json.Words(words);
        if (words.Any(Yes.Contains))
        {
            listed.Add(true);
        }

        if (words.Any(No.Contains))
        {
            listed.Add(false);
        }

        return new JsonObject { ["enum"] = listed };
    }

    /// <summary>An amount as limits are written.</summary>
    public static JsonObject Amount(Dimension dimension)
    {
        var written = String(Patterns.Amount(dimension));
        var unit = Units.Ucum(Units.Of(dimension).First());
        return Patterns.MayBeBare(dimension)
            ? Json.AnyOf(Bare(), written).Described($"A number, alone or with a UCUM unit: {Listed(dimension)}.")
            : written.Described($"A number with a UCUM unit, such as 10 {unit}: {Listed(dimension)}.");
    }

    /// <summary>The two ends of a range.</summary>
    public static JsonObject Range(Dimension dimension) =>
        String(Patterns.Range(dimension)).Described($"Two numbers and a UCUM unit, such as 20 to 30 {Units.Ucum(Units.Of(dimension).First())}: {Listed(dimension)}.");

    private static string Listed(Dimension dimension) => string.Join(", ", Units.Of(dimension).Select(Units.Ucum));

    private static JsonObject Bare() => new() { ["type"] = "number", ["minimum"] = 0, ["maximum"] = Reading.Amount.Most };

    private static JsonObject String(string pattern) => new() { ["type"] = "string", ["pattern"] = pattern };

    private static JsonObject Written(string pattern) => new() { ["type"] = Json.Words(["string", "number", "boolean"]), ["pattern"] = pattern };
}
