using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;

namespace AirwayGuard.TestKit.Simulation;

/// <summary>What is fixed of a Flag or DetectedIssue on the server.</summary>
/// <param name="Key">Its identifier.</param>
/// <param name="Rests">What an issue implicates, or which issues a Flag names, in their order.</param>
internal sealed record WrittenResource(Guid Key, string Type, string Status, string Check, string Severity, string Patient, string Rests)
{
    public static WrittenResource Read(ReadOnlySpan<byte> json)
    {
        var node = JsonNode.Parse(json)!;
        var type = Text(node["resourceType"]);
        var isFlag = type == "Flag";
        var rests = isFlag
            ? Items(node["extension"]).Select(extension => Text(extension?["valueReference"]?["identifier"]?["value"])).Where(value => value.Length > 0)
            : Items(node["implicated"]).Select(reference => Text(reference?["reference"]));
        return new WrittenResource(
            Guid.TryParse(KeyIn(node), out var key) ? key : Guid.Empty, type, Text(node["status"]),
            Text(node["code"]?["coding"]?[0]?["code"]), isFlag ? "" : Text(node["severity"]), Text(node[isFlag ? "subject" : "patient"]?["reference"]),
            string.Join(' ', rests));
    }

    // Others may have added identifiers of their own.
    private static string KeyIn(JsonNode node) => Items(node["identifier"])
        .Where(identifier => Text(identifier?["system"]).StartsWith(FindingKeys.Base, StringComparison.Ordinal))
        .Select(identifier => Text(identifier?["value"]))
        .FirstOrDefault("");

    private static IEnumerable<JsonNode?> Items(JsonNode? list) => list as JsonArray ?? [];

    private static string Text(JsonNode? value) => value?.GetValue<string>() ?? "";
}
