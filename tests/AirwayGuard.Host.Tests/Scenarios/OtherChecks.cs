using System.Text.Json;
using System.Text.Json.Nodes;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>What the checks that a scenario is not about say of it: counted, so that nothing appears or goes unseen.</summary>
public static class OtherChecks
{
    private static readonly string[] Lists = ["findings", "cannotTell"];

    /// <summary>Differences between the counts printed and those expected; none where a scenario lists everything.</summary>
    public static IEnumerable<string> Differences(JsonElement output, ExpectedRun expected)
    {
        if (expected.Others is not { } others)
        {
            yield break;
        }

        var counted = Count(output, expected);
        foreach (var list in Lists)
        {
            var wanted = others.TryGetProperty(list, out var counts)
                ? counts.EnumerateObject().ToDictionary(one => one.Name, one => one.Value.GetInt32(), StringComparer.Ordinal)
                : [];
            var found = counted[list]!.AsObject().ToDictionary(one => one.Key, one => one.Value!.GetValue<int>(), StringComparer.Ordinal);
            foreach (var check in wanted.Keys.Union(found.Keys, StringComparer.Ordinal).Where(check => wanted.GetValueOrDefault(check) != found.GetValueOrDefault(check)))
            {
                yield return $"others {list}: {check}: expected {wanted.GetValueOrDefault(check)}, got {found.GetValueOrDefault(check)}";
            }
        }
    }

    /// <summary>The counts as they are written in an expectation, by list and check.</summary>
    public static JsonObject Count(JsonElement output, ExpectedRun expected)
    {
        var counts = new JsonObject();
        foreach (var list in Lists)
        {
            var byCheck = new JsonObject();
            foreach (var group in output.GetProperty(list).EnumerateArray()
                .Select(entry => entry.GetProperty("check").GetString()!)
                .Where(check => !expected.Lists(check))
                .GroupBy(check => check, StringComparer.Ordinal)
                .OrderBy(group => group.Key, StringComparer.Ordinal))
            {
                byCheck[group.Key] = group.Count();
            }

            counts[list] = byCheck;
        }

        return counts;
    }
}
