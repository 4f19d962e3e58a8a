using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;

namespace AirwayGuard.Rules.Tests.Schema;

/// <summary>The schema for editors, held against documents by a library that knows nothing of our reader.</summary>
internal static class EditorSchema
{
    // The library answers wrongly now and then where two threads ask one schema.
    private static readonly Lock OneAtATime = new();

    private static readonly JsonSchema Schema = Parse();

    /// <summary>Taken both as an editor of YAML 1.2 and as one of YAML 1.1 sees the document.</summary>
    public static bool Takes(string yaml) => Array.TrueForAll([false, true], older => Takes(EditorJson.Of(yaml, older)));

    /// <summary>As an editor of YAML 1.2 sees the document.</summary>
    public static bool Refuses(string yaml) => !Takes(EditorJson.Of(yaml, older: false));

    /// <summary>Where and why it is refused, for the message of a test that fails.</summary>
    public static string Why(string yaml)
    {
        var results = Evaluate(EditorJson.Of(yaml, older: false), OutputFormat.List);
        return string.Join('\n', results.Details.Where(detail => detail is { IsValid: false, HasErrors: true })
            .SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Key}: {error.Value}")));
    }

    private static bool Takes(JsonNode? document) => Evaluate(document, OutputFormat.Flag).IsValid;

    private static EvaluationResults Evaluate(JsonNode? document, OutputFormat format)
    {
        lock (OneAtATime)
        {
            return Schema.Evaluate(document, new EvaluationOptions { OutputFormat = format });
        }
    }

    private static JsonSchema Parse()
    {
        // The library takes its patterns from the runtime's cache, which holds 15 unless told otherwise: each would be built again and again.
        Regex.CacheSize = Math.Max(Regex.CacheSize, 500);
        return JsonSchema.FromText(RuleSetSchema.Text);
    }
}
