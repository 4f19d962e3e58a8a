using System.Collections.Immutable;
using System.Text.Json;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>A scenario's <c>expected.json</c>.</summary>
/// <param name="Why">What the scenario shows, one line.</param>
/// <param name="Covers">Ids of the checks it is about.</param>
public sealed record ExpectedScenario(string Why, ImmutableArray<string> Covers, ImmutableArray<ExpectedRun> Runs)
{
    public const string FileName = "expected.json";

    /// <summary>Reads the expectation of a scenario's folder.</summary>
    /// <exception cref="FormatException">A member is missing, misspelt or of the wrong kind.</exception>
    public static ExpectedScenario Read(string folder) => Parse(File.ReadAllText(Path.Combine(folder, FileName)));

    /// <exception cref="FormatException">A member is missing, misspelt or of the wrong kind.</exception>
    public static ExpectedScenario Parse(string json)
    {
        using var document = JsonDocument.Parse(json);
        var root = document.RootElement;
        Only(root, "why", "covers", "runs");
        ImmutableArray<string> covers = [.. List(root, "covers").Select(id => id.GetString() ?? throw new FormatException("A check id is null."))];
        return new(
            Text(root, "why") ?? throw new FormatException("why is null."),
            covers,
            [.. List(root, "runs").Select(run => ReadRun(run, covers))]);
    }

    private static ExpectedRun ReadRun(JsonElement run, ImmutableArray<string> covers)
    {
        Only(run, "rules", "asOf", "unknownAge", "exit", "judged", "findings", "cannotTell", "others", "problems");
        return new(
            Text(run, "rules") ?? throw new FormatException("rules is null."),
            Text(run, "asOf"),
            Text(run, "unknownAge"),
            Member(run, "exit").GetInt32(),
            Member(run, "judged").Clone(),
            Entries(run, "findings", "check", "severity", "patient", "about", "at", "latest", "ageBand", "value", "charted", "limit", "count", "state", "late", "withheldBy", "estimate"),
            Entries(run, "cannotTell", "check", "patient", "at", "missing", "count", "about"),
            Entries(run, "problems", "code", "where"),
            covers,
            run.TryGetProperty("others", out var others) ? others.Clone() : null);
    }

    private static ImmutableArray<JsonElement> Entries(JsonElement run, string name, params string[] members)
    {
        var entries = List(run, name);
        foreach (var entry in entries)
        {
            Only(entry, members);
        }

        return entries;
    }

    private static ImmutableArray<JsonElement> List(JsonElement owner, string name)
    {
        var list = Member(owner, name);
        return list.ValueKind == JsonValueKind.Array
            ? [.. list.EnumerateArray().Select(item => item.Clone())]
            : throw new FormatException(name + " is not a list.");
    }

    private static string? Text(JsonElement owner, string name)
    {
        var text = Member(owner, name);
        return text.ValueKind is JsonValueKind.String or JsonValueKind.Null
            ? text.GetString()
            : throw new FormatException(name + " is not text.");
    }

    private static JsonElement Member(JsonElement owner, string name) =>
        owner.TryGetProperty(name, out var member) ? member : throw new FormatException(name + " is missing.");

    private static void Only(JsonElement owner, params string[] names)
    {
        foreach (var member in owner.EnumerateObject())
        {
            if (!names.Contains(member.Name, StringComparer.Ordinal))
            {
                throw new FormatException(member.Name + " is not a member that is compared.");
            }
        }
    }
}
