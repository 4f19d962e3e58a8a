using System.Text.Json.Nodes;

namespace AirwayGuard.Rules.Schema;

/// <summary>The few shapes that the schema is put together of.</summary>
internal static class Json
{
    public static JsonObject Ref(string definition) => new() { ["$ref"] = $"#/$defs/{definition}" };

    public static JsonArray Words(IEnumerable<string> words) => [.. words.Select(word => JsonValue.Create(word))];

    public static JsonObject Const(string word) => new() { ["const"] = word };

    public static JsonObject Enum(IEnumerable<string> words) => new() { ["enum"] = Words(words) };

    public static JsonObject Required(params IEnumerable<string> keys) => new() { ["required"] = Words(keys) };

    public static JsonObject AnyOf(params IEnumerable<JsonNode> ways) => new() { ["anyOf"] = new JsonArray([.. ways]) };

    public static JsonObject OneOf(params IEnumerable<JsonNode> ways) => new() { ["oneOf"] = new JsonArray([.. ways]) };

    public static JsonObject Not(JsonNode what) => new() { ["not"] = what };

    public static JsonObject If(JsonNode holds, JsonNode then) => new() { ["if"] = holds, ["then"] = then };

    /// <summary>A list of at least one.</summary>
    public static JsonObject ListOf(JsonNode item) => new() { ["type"] = "array", ["minItems"] = 1, ["items"] = item };

    /// <summary>A list of at least one, or the one alone.</summary>
    public static JsonObject OneOrListOf(Func<JsonNode> item) => AnyOf(item(), ListOf(item()));

    /// <summary>A map that has no other keys than these.</summary>
    public static JsonObject Map(IEnumerable<(string Key, JsonNode Schema)> keys, params IEnumerable<string> required)
    {
        var map = new JsonObject { ["type"] = "object", ["additionalProperties"] = false, ["properties"] = Properties(keys) };
        var needed = Words(required);
        if (needed.Count > 0)
        {
            map["required"] = needed;
        }

        return map;
    }

    /// <summary>What holds of some keys of a map, whatever others there are.</summary>
    public static JsonObject Holding(params IEnumerable<(string Key, JsonNode Schema)> keys) => new() { ["properties"] = Properties(keys) };

    public static JsonObject Described(this JsonObject schema, string note)
    {
        schema.Insert(0, "description", note);
        return schema;
    }

    public static JsonObject Properties(IEnumerable<(string Key, JsonNode Schema)> keys)
    {
        var properties = new JsonObject();
        foreach (var (key, schema) in keys)
        {
            properties.Add(key, schema);
        }

        return properties;
    }
}
