using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Compares what <c>check --format json</c> printed with what a scenario expects: exactly on the members given, lists complete.</summary>
public static class CheckComparer
{
    private static readonly string[] Counts = ["passes", "sessions", "orders", "settings"];

    /// <summary>The differences in words, none where the output is as expected.</summary>
    public static IReadOnlyList<string> Differences(string printed, ExpectedRun expected)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(printed);
        }
        catch (JsonException trouble)
        {
            return ["output is not JSON: " + trouble.Message];
        }

        using (document)
        {
            var output = document.RootElement;
            if (output.ValueKind != JsonValueKind.Object)
            {
                return ["output is not a JSON object"];
            }

            var differences = new List<string>();
            CompareCounts(output, expected.Judged, differences);
            CompareList(output, "findings", "check", expected.Findings, expected.Lists, differences);
            CompareList(output, "cannotTell", "check", expected.CannotTell, expected.Lists, differences);
            CompareList(output, "problems", "code", expected.Problems, _ => true, differences);
            differences.AddRange(OtherChecks.Differences(output, expected));
            return differences;
        }
    }

    private static void CompareCounts(JsonElement output, JsonElement expected, List<string> differences)
    {
        if (!output.TryGetProperty("judged", out var judged))
        {
            differences.Add("judged: missing");
            return;
        }

        foreach (var name in Counts)
        {
            CompareMember(expected, judged, name, "judged", differences);
        }
    }

    private static void CompareList(JsonElement output, string name, string key, ImmutableArray<JsonElement> expected, Func<string, bool> lists, List<string> differences)
    {
        if (!output.TryGetProperty(name, out var list) || list.ValueKind != JsonValueKind.Array)
        {
            differences.Add(name + ": missing");
            return;
        }

        var left = list.EnumerateArray().Where(entry => !entry.TryGetProperty(key, out var id) || lists(id.GetString() ?? "")).ToList();
        var unmatched = new List<JsonElement>();

        // Whole matches first, so that a wrong entry never takes the place of a right one.
        foreach (var entry in expected)
        {
            var match = left.FindIndex(actual => Compare(entry, actual, "").Count == 0);
            if (match < 0)
            {
                unmatched.Add(entry);
            }
            else
            {
                left.RemoveAt(match);
            }
        }

        foreach (var entry in unmatched)
        {
            var best = Nearest(entry, left, key);
            if (best < 0)
            {
                differences.Add($"{name}: expected but not found: {Short(entry)}");
                continue;
            }

            differences.AddRange(Compare(entry, left[best], $"{name}: {Short(left[best])}"));
            left.RemoveAt(best);
        }

        differences.AddRange(left.Select(actual => $"{name}: found but not expected: {Short(actual)}"));
    }

    /// <summary>The entry with the same key and the fewest differences; −1 where none has the key.</summary>
    private static int Nearest(JsonElement expected, List<JsonElement> actual, string key)
    {
        var best = -1;
        var fewest = int.MaxValue;
        for (var i = 0; i < actual.Count; i++)
        {
            if (expected.TryGetProperty(key, out var wanted) && (!actual[i].TryGetProperty(key, out var found) || !Same(wanted, found)))
            {
                continue;
            }

            var count = Compare(expected, actual[i], "").Count;
            if (count < fewest)
            {
                (best, fewest) = (i, count);
            }
        }

        return best;
    }

    private static List<string> Compare(JsonElement expected, JsonElement actual, string where)
    {
        var differences = new List<string>();
        if (expected.ValueKind != JsonValueKind.Object || actual.ValueKind != JsonValueKind.Object)
        {
            if (!Same(expected, actual))
            {
                differences.Add($"{where}: expected {Print(expected)}, got {Print(actual)}");
            }

            return differences;
        }

        foreach (var member in expected.EnumerateObject())
        {
            CompareMember(expected, actual, member.Name, where, differences);
        }

        return differences;
    }

    private static void CompareMember(JsonElement expected, JsonElement actual, string name, string where, List<string> differences)
    {
        if (!expected.TryGetProperty(name, out var wanted))
        {
            return;
        }

        if (!actual.TryGetProperty(name, out var found))
        {
            differences.Add($"{where} {name}: expected {Print(wanted)}, but there is none");
        }
        else
        {
            differences.AddRange(Compare(wanted, found, where + " " + name));
        }
    }

    private static bool Same(JsonElement expected, JsonElement actual)
    {
        if (expected.ValueKind != actual.ValueKind)
        {
            return false;
        }

        return expected.ValueKind switch
        {
            JsonValueKind.Number => expected.GetDecimal() == actual.GetDecimal(),
            JsonValueKind.String => string.Equals(expected.GetString(), actual.GetString(), StringComparison.Ordinal),
            JsonValueKind.Array => expected.GetArrayLength() == actual.GetArrayLength()
                && expected.EnumerateArray().Zip(actual.EnumerateArray()).All(pair => Compare(pair.First, pair.Second, "").Count == 0),
            _ => true,
        };
    }

    private static string Short(JsonElement entry)
    {
        string[] names = ["check", "code", "patient", "where", "at", "missing"];
        var parts = names
            .Where(name => entry.ValueKind == JsonValueKind.Object && entry.TryGetProperty(name, out _))
            .Select(name => entry.GetProperty(name))
            .Where(value => value.ValueKind == JsonValueKind.String)
            .Select(value => value.GetString());
        return string.Join(", ", parts);
    }

    private static string Print(JsonElement value) => value.ValueKind == JsonValueKind.Number
        ? value.GetDecimal().ToString(CultureInfo.InvariantCulture)
        : value.GetRawText();
}
