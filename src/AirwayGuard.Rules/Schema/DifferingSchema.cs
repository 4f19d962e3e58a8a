using System.Text.Json.Nodes;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Schema;

/// <summary>A rule of a document that starts from another: its id, and what differs; a rule of its own states all, which only lint can tell.</summary>
internal static class DifferingSchema
{
    public const string Rule = "rule-that-differs";

    public static IEnumerable<(string Name, JsonNode Schema)> Definitions()
    {
        yield return (Rule, Json.Map(DocumentKeys.Rule.Select(key => (key, (JsonNode)Of(key))), "id"));
    }

    private static JsonObject Of(string key)
    {
        var stated = ComparisonKey.All.Contains(key, StringComparer.Ordinal) ? LimitSchema.BandsOf(key).Described(KeyNotes.Of(key)) : RuleSchema.Of(key);
        return DocumentKeys.Removable.Contains(key, StringComparer.Ordinal) ? Json.AnyOf(stated, Json.Const(DocumentKeys.None)) : stated;
    }
}
