using System.Text.Json.Nodes;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Schema;

namespace AirwayGuard.Rules;

/// <summary>
/// The JSON Schema (draft 2020-12) of rule-set documents, for editors, made of the tables that the reader reads by. It takes whatever
/// <c>rules lint</c> takes; what only lint can tell (a source that is not listed, a tightening that changes nothing) it lets pass.
/// </summary>
public static class RuleSetSchema
{
    private static readonly string[] Always = ["schema", "name", "version", "title"];

    private static readonly Lazy<string> Written = new(static () => SchemaText.Of(Whole()));

    /// <summary>The schema as text, ending with a line feed.</summary>
    public static string Text => Written.Value;

    private static JsonObject Whole()
    {
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = $"https://airwayguard.example.org/schema/rule-set-{RuleSetBuilder.SchemaVersion}.json",
            ["title"] = $"AirwayGuard rule set, schema {RuleSetBuilder.SchemaVersion}",
            ["description"] = "Written from the reader's own tables; do not edit. rules lint is stricter and tells faults with what is allowed.",
        };
        foreach (var (key, value) in Json.Map(DocumentKeys.Document.Select(key => (key, (JsonNode)Of(key))), Always).ToList())
        {
            schema[key] = value?.DeepClone();
        }

        // One that starts from another states only what differs.
        schema["if"] = Json.Required(DocumentKeys.From);
        schema["then"] = Json.Holding(("rules", new JsonObject { ["items"] = Json.Ref(DifferingSchema.Rule) }));
        var whole = Json.Holding(("rules", new JsonObject { ["items"] = Json.Ref(RuleSchema.Rule) }), (DocumentKeys.Without, JsonValue.Create(false)));
        whole["required"] = Json.Words(["sources", "rules"]);
        schema["else"] = whole;

        var definitions = new JsonObject();
        foreach (var (name, definition) in Scalars.Definitions().Concat(LimitSchema.Definitions()).Concat(RuleSchema.Definitions()).Concat(DifferingSchema.Definitions()))
        {
            definitions.Add(name, definition);
        }

        schema["$defs"] = definitions;
        return schema;
    }

    private static JsonObject Of(string key) => (key switch
    {
        "schema" => new JsonObject { ["enum"] = new JsonArray(JsonNode.Parse(RuleSetBuilder.SchemaVersion), RuleSetBuilder.SchemaVersion) },
        "name" => Json.Ref(Scalars.Id),
        "sources" => new JsonObject
        {
            ["type"] = "object",
            ["propertyNames"] = new JsonObject { ["pattern"] = KebabId.Pattern, ["maxLength"] = KebabId.MostLength },
            ["additionalProperties"] = Json.Ref(Scalars.Text),
        },
        "rules" => new JsonObject { ["type"] = "array" },
        DocumentKeys.Without => Json.OneOrListOf(static () => Json.Ref(Scalars.Id)),
        _ => Json.Ref(Scalars.Text),
    }).Described(key == "title" ? KeyNotes.OfSetTitle : KeyNotes.Of(key));
}
