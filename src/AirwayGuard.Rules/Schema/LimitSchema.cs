using System.Text.Json.Nodes;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>Limits: one each for the age bands, with source and status; and guards, which have none.</summary>
internal static class LimitSchema
{
    private const string Limit = "limit", Charted = "limit-of-missing";

    /// <summary>What the amounts or codes are is added by the kind of the measure: the rest is the same for all.</summary>
    public static IEnumerable<(string Name, JsonNode Schema)> Definitions()
    {
        foreach (var (name, keys) in new[] { (Limit, DocumentKeys.Limit), (Charted, DocumentKeys.LimitOfMissing) })
        {
            yield return (name, Json.Map(keys.Select(key => (key, (JsonNode)Of(key))), keys));
            yield return ($"band-{name}", Json.AnyOf(Json.Ref(name), Json.Enum([DocumentKeys.NotJudged, DocumentKeys.SiteSets])));
            yield return ($"bands-{name}", EveryBand(name));
            yield return ($"some-bands-{name}", SomeBands(name));
            yield return ($"bands-stated-{name}", BandMap(name));
        }

        foreach (var kind in Kind.All.DistinctBy(kind => kind.ValueName, StringComparer.Ordinal))
        {
            yield return (Value(kind.ValueName), kind.IsCode ? Scalars.WordsOf(kind.Codes) : Scalars.Amount(kind.Dimension));
            yield return (Each(kind.ValueName), EachValue(kind.ValueName));
            if (!kind.IsCode)
            {
                yield return (Value(kind.ValueOf("outside")), Scalars.Range(kind.Dimension));
                yield return (Each(kind.ValueOf("outside")), EachValue(kind.ValueOf("outside")));
            }

            yield return (Guard(kind), GuardOf(kind));
        }
    }

    /// <summary>A limit for every band.</summary>
    public static JsonObject Bands(string comparison) => Json.Ref($"bands-{NameOf(comparison)}");

    /// <summary>Beside the limits of the bands: one for those that are judged, or some bands with theirs.</summary>
    public static JsonObject SomeBandsOf(string comparison) => Json.Ref($"some-bands-{NameOf(comparison)}");

    /// <summary>Limits of some bands, or of all as one.</summary>
    public static JsonObject BandsOf(string comparison) => Json.Ref($"bands-stated-{NameOf(comparison)}");

    /// <summary>What limits are for the kind, by comparison; those that it cannot be compared by are refused.</summary>
    public static JsonObject OfKind(Kind kind)
    {
        var refused = ComparisonKey.All.Except(kind.Comparisons, StringComparer.Ordinal).Select(word => (word, (JsonNode)JsonValue.Create(false)));
        var taken = kind.Comparisons.Where(word => word != "missing").GroupBy(kind.ValueOf, StringComparer.Ordinal)
            .Select(group => ($"^({string.Join('|', group)})$", (JsonNode)Json.Ref(Each(group.Key))));
        var of = Json.Holding(refused);
        of["patternProperties"] = Json.Properties(taken);
        return of;
    }

    public static string Value(string name) => $"value-{name}";

    public static string Guard(Kind kind) => $"guard-{kind.ValueName}";

    /// <summary>Exactly one of the comparisons.</summary>
    public static JsonObject OneComparison() => Json.OneOf(ComparisonKey.All.Select(word => Json.Required(word)));

    private static string NameOf(string comparison) => comparison == "missing" ? Charted : Limit;

    private static string Each(string name) => $"each-{name}";

    private static JsonObject Of(string key) => key switch
    {
        "limit" => [],
        "source" => Json.Ref(Scalars.Text).Described(KeyNotes.Of(key)),
        _ => Json.Enum(Words.Statuses.Select(row => row.Word)).Described(KeyNotes.Of(key)),
    };

    /// <summary>The limit itself, or those of the bands.</summary>
    private static JsonObject EachValue(string name)
    {
        var each = Json.Holding(("limit", Json.Ref(Value(name))));
        each["additionalProperties"] = Json.Holding(("limit", Json.Ref(Value(name))));
        return each;
    }

    /// <summary>Every band, or one for all; not all of them without a limit.</summary>
    private static JsonObject EveryBand(string name)
    {
        var bands = BandMap(name);
        var each = Json.Required(Words.Bands.Select(band => band.Word));
        each["maxProperties"] = Words.Bands.Length;
        var all = Json.Required(DocumentKeys.All);
        all["maxProperties"] = 1;
        bands["oneOf"] = new JsonArray(all, each);
        bands["not"] = new JsonObject { ["additionalProperties"] = Json.Const(DocumentKeys.NotJudged) };
        return bands;
    }

    private static JsonObject SomeBands(string name) => Json.AnyOf(Json.Ref(name), BandMap(name));

    private static JsonObject BandMap(string name) => Json.Map(DocumentKeys.Bands.Select(band => (band, (JsonNode)Json.Ref($"band-{name}"))));

    private static JsonObject GuardOf(Kind kind)
    {
        var fitting = kind.Comparisons.Where(DocumentKeys.Guard.Contains).ToList();
        var compared = Json.Map(fitting.Select(word => (word, (JsonNode)Json.Ref(Value(kind.ValueOf(word))))));
        compared["minProperties"] = 1;
        compared["maxProperties"] = 1;
        return kind.Codes.IsEmpty ? compared : Json.AnyOf(Json.Ref(Value(kind.ValueName)), compared);
    }
}
