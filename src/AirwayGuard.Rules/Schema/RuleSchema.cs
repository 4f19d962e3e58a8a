using System.Collections.Immutable;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>A rule: its keys, and what its measure makes of them.</summary>
internal static class RuleSchema
{
    public const string Rule = "rule";

    private const string Criterion = "criterion", Measure = "measure", Severity = "severity", Guards = "guards", Measured = "measured-", Judged = "rule-of-";

    private static readonly string[] Required = ["id", "judges", "say", "do", "clears"];

    public static IEnumerable<(string Name, JsonNode Schema)> Definitions()
    {
        yield return (Measure, new JsonObject
        {
            ["enum"] = Json.Words(MeasureCatalog.All.Select(measure => measure.Id)),
            ["enumDescriptions"] = Json.Words(MeasureCatalog.All.Select(measure => measure.Meaning)),
        });
        yield return (Severity, Json.AnyOf(Json.Enum(Severities), Steps()).Described(KeyNotes.Of("severity")));
        yield return (Guards, Nonempty(Json.Map(MeasureCatalog.All.Select(measure => (measure.Id, (JsonNode)Json.Ref(LimitSchema.Guard(KindOf(measure))).Described(measure.Meaning))))));
        foreach (var kind in Kind.All)
        {
            yield return ($"{Measured}{kind.Name}", LimitSchema.OfKind(kind));
            yield return ($"{Judged}{kind.Name}", OfKind(kind));
        }

        yield return (Criterion, OneCriterion());
        yield return (Rule, Whole());
    }

    private static IEnumerable<string> Severities => Words.Severities.Select(row => row.Word);

    private static Kind KindOf(Measure measure) => Kind.All.First(kind => kind.Measures.Contains(measure));

    private static JsonObject Steps() => Nonempty(Json.Map(Severities.Select(word => (word, (JsonNode)Json.Ref(Scalars.Mark)))));

    private static JsonObject Nonempty(JsonObject map)
    {
        map["minProperties"] = 1;
        return map;
    }

    private static JsonObject OneCriterion()
    {
        var criterion = Json.Map(DocumentKeys.Criterion.Select(key => (key, (JsonNode)Of(key))), "measure");
        criterion["allOf"] = new JsonArray([
            LimitSchema.OneComparison(), StepsRise(), .. Kind.All.Select(kind => Json.If(Measures(kind.Measures), Json.Ref($"{Measured}{kind.Name}")))]);
        return criterion;
    }

    private static JsonObject Whole()
    {
        var rule = Json.Map(DocumentKeys.Rule.Select(key => (key, (JsonNode)Of(key))), Required);
        rule["if"] = Json.Required("anyOf");
        rule["then"] = Several();
        rule["else"] = new JsonObject
        {
            ["required"] = Json.Words(["measure", "severity"]),
            ["allOf"] = new JsonArray([
                LimitSchema.OneComparison(), StepsRise(), .. Kind.All.Select(kind => Json.If(Measures(kind.Measures), Json.Ref($"{Judged}{kind.Name}"))),
                .. MeasureCatalog.All.GroupBy(measure => string.Join(' ', measure.Judges), StringComparer.Ordinal)
                    .Select(group => Json.If(Measures(group), Json.Holding(("judges", Judges(group.First().Judges)))))]),
        };
        return rule;
    }

    /// <summary>With several criteria each has its measure and limits, and a severity of its own or the rule's.</summary>
    private static JsonObject Several()
    {
        string[] elsewhere = ["measure", .. ComparisonKey.All, "tighten"];
        var several = Json.Holding(elsewhere.Select(key => (key, (JsonNode)JsonValue.Create(false))));
        several["anyOf"] = new JsonArray(Json.Required("severity"), Json.Holding(("anyOf", new JsonObject { ["items"] = Json.Required("severity") })));
        return several;
    }

    /// <summary>Steps stand beside a comparison that has higher values only.</summary>
    private static JsonObject StepsRise()
    {
        var stepped = Json.Holding(("severity", new JsonObject { ["type"] = "object" }));
        stepped["required"] = Json.Words(["severity"]);
        return Json.If(stepped, Json.AnyOf(Json.Required("above"), Json.Required("atOrAbove")));
    }

    private static JsonObject Measures(IEnumerable<Measure> measures)
    {
        var named = Json.Holding(("measure", Json.Enum(measures.Select(measure => measure.Id))));
        named["required"] = Json.Words(["measure"]);
        return named;
    }

    private static JsonObject OfKind(Kind kind)
    {
        var limit = kind.IsCode ? (JsonNode)JsonValue.Create(false) : Json.AnyOf(
            kind.Comparisons.Where(word => word != "missing").Select(kind.ValueOf).Distinct(StringComparer.Ordinal).Select(name => Json.Ref(LimitSchema.Value(name))));
        string[] when = [.. kind.Codes, .. kind.MayBeMissing ? [Core.Judging.Rule.Charted] : Array.Empty<string>()];
        var of = Json.Holding(
            ("tighten", new JsonObject { ["items"] = Json.Ref($"{Measured}{kind.Name}") }),
            ("allow", new JsonObject { ["items"] = Json.Holding(("limit", limit)) }),
            ("sayInstead", new JsonObject { ["propertyNames"] = Json.Enum(when) }));
        of["$ref"] = $"#/$defs/{Measured}{kind.Name}";
        return of;
    }

    private static JsonObject Judges(IEnumerable<SubjectKind> kinds)
    {
        ImmutableArray<string> words = [.. Words.Subjects.Where(row => kinds.Contains(row.Value)).Select(row => row.Word)];
        return Json.OneOrListOf(() => Json.Enum(words));
    }

    /// <summary>What stands under one key of a rule.</summary>
    public static JsonObject Of(string key) => (key switch
    {
        "id" => Json.Ref(Scalars.Id),
        "judges" => Judges(Words.Subjects.Select(row => row.Value)),
        "measure" => Json.Ref(Measure),
        "anyOf" => Json.ListOf(Json.Ref(Criterion)),
        "severity" => Json.Ref(Severity),
        "tighten" => Json.ListOf(Tightening()),
        "allow" => Json.ListOf(Allowance()),
        "unless" => Json.Ref(Guards),
        "needsAge" => Scalars.WordsOf([.. Words.YesNo.Select(row => row.Word)]),
        "stands" => Json.Enum(Words.Standings.Select(row => row.Word)),
        "waits" => Json.Ref(Scalars.Wait),
        "holds" => Json.Ref(Scalars.Hold),
        "mode" => Json.AnyOf(Modes(), Json.Map(DocumentKeys.Mode.Select(only => (only, (JsonNode)Modes())), DocumentKeys.Mode)),
        "say" or "do" => Json.Ref(Scalars.Sentence),
        "sayInstead" => new JsonObject { ["type"] = "object", ["additionalProperties"] = Json.Ref(Scalars.Sentence) },
        _ when ComparisonKey.All.Contains(key, StringComparer.Ordinal) => LimitSchema.Bands(key),
        _ => Json.Ref(Scalars.Text),
    }).Described(KeyNotes.Of(key));

    private static JsonObject Modes() => Json.Enum(Words.Modes.Select(row => row.Word));

    private static JsonObject Tightening()
    {
        var item = Json.Map(DocumentKeys.Tightening.Select(key => (key, (JsonNode)(key == "when" ? Json.Ref(Guards) : LimitSchema.SomeBandsOf(key)).Described(KeyNotes.Of(key)))), "when");
        item["oneOf"] = LimitSchema.OneComparison()["oneOf"]!.DeepClone();
        return item;
    }

    private static JsonObject Allowance()
    {
        var item = Json.Map(DocumentKeys.Allowance.Select(key => (key, (JsonNode)(key switch
        {
            "reason" => Json.Enum(AllowReader.Reasons),
            "bands" => Json.OneOrListOf(() => Json.Enum(DocumentKeys.Bands)),
            "limit" => new JsonObject(),
            "status" => Json.Enum(Words.Statuses.Select(row => row.Word)),
            _ => Json.Ref(Scalars.Text),
        }).Described(KeyNotes.Of(key)))), DocumentKeys.Allowance.Remove("limit", StringComparer.Ordinal));
        var all = Json.AnyOf(
            Json.Const(DocumentKeys.All), new JsonObject { ["contains"] = Json.Const(DocumentKeys.All), ["type"] = "array" },
            new JsonObject { ["type"] = "array", ["minItems"] = Words.Bands.Length });
        item["anyOf"] = new JsonArray(Json.Required("limit"), Json.Holding(("bands", all)));
        return item;
    }
}
