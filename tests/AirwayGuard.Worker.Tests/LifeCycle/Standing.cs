using System.Text.Json.Nodes;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>What stands on the server, read as a ward's record would show it.</summary>
internal static class Standing
{
    /// <summary>The Flags of one check, oldest first.</summary>
    public static async Task<IReadOnlyList<JsonObject>> FlagsAsync(this PipelineBench bench, string check = "vacuum-above-ceiling") => await OfAsync(bench, "Flag", check);

    public static async Task<IReadOnlyList<JsonObject>> IssuesAsync(this PipelineBench bench, string check = "vacuum-above-ceiling") => await OfAsync(bench, "DetectedIssue", check);

    public static string Status(this JsonObject resource) => (string)resource["status"]!;

    public static string Version(this JsonObject resource) => (string)resource["meta"]!["versionId"]!;

    public static string Key(this JsonObject resource) => (string)resource["identifier"]![0]!["value"]!;

    public static string Name(this JsonObject resource) => $"{resource["resourceType"]}/{resource["id"]}";

    /// <summary>Provenances of one resource as <c>activity version: sources</c>, oldest first.</summary>
    public static async Task<IReadOnlyList<string>> ProvenancesAsync(this PipelineBench bench, JsonObject resource)
    {
        var found = new List<string>();
        foreach (var provenance in await bench.AllAsync("Provenance"))
        {
            var target = ((string)provenance["target"]![0]!["reference"]!).Split("/fhir/")[^1];
            if (target.StartsWith(resource.Name() + "/_history/", StringComparison.Ordinal))
            {
                var sources = provenance["entity"]!.AsArray().Where(entity => (string?)entity!["role"] == "source").Select(entity => ((string)entity!["what"]!["reference"]!).Split("/fhir/")[^1]);
                found.Add($"{provenance["activity"]!["coding"]![0]!["code"]} {target.Split('/')[^1]}: {string.Join(' ', sources)}");
            }
        }

        return found;
    }

    /// <summary>Each resource of ours has one Provenance a version that we wrote, there is one author, and no key stands twice.</summary>
    public static async Task NothingIsDoubledAsync(this PipelineBench bench)
    {
        var (flags, issues) = (await bench.AllAsync("Flag"), await bench.AllAsync("DetectedIssue"));
        Assert.Equal(flags.Count, flags.Select(Key).Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(issues.Count, issues.Select(Key).Distinct(StringComparer.Ordinal).Count());
        Assert.Single(await bench.AllAsync("Device"), device => device["identifier"] is not null);
        foreach (var resource in flags.Concat(issues))
        {
            var versions = (await bench.ProvenancesAsync(resource)).Select(one => one.Split(':')[0].Split(' ')[1]).ToList();
            Assert.NotEmpty(versions);
            Assert.Equal(versions.Distinct(StringComparer.Ordinal), versions, StringComparer.Ordinal);
        }
    }

    private static async Task<IReadOnlyList<JsonObject>> OfAsync(PipelineBench bench, string type, string check) =>
        [.. (await bench.AllAsync(type)).Where(resource => (string?)resource["code"]!["coding"]![0]!["code"] == check)];
}
