using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Histories;
using UnknownAge = AirwayGuard.TestKit.Histories.UnknownAge;
using AirwayGuard.Worker.Checking;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>The engine as the properties see it: FHIR JSON in, the report of <c>check</c> out.</summary>
internal static class EngineRuns
{
    private static readonly FhirArrivalReader Reader = new(ShippedMaps.StandardCodes);
    private static readonly OrderWordsReader Orders = new(ShippedMaps.StandardCodes);
    private static readonly Dictionary<string, RuleSet> Sets = ShippedRuleSets.Names.ToDictionary(name => name, name => ShippedRuleSets.Load(name).RuleSet!, StringComparer.Ordinal);

    private static readonly Dictionary<string, RuleSet> AllLive = Sets.ToDictionary(
        set => set.Key, set => set.Value with { Rules = [.. set.Value.Rules.Select(rule => rule with { Mode = Mode.Live })] }, StringComparer.Ordinal);

    /// <summary>A shipped rule set in which the checks that ship silent speak too.</summary>
    public static RuleSet WithSilent(string rules) => AllLive[rules];

    /// <summary>What is said by all checks, also by those that ship silent.</summary>
    public static ReferenceReport Judge(IReadOnlyList<string> resources, string rules, DateTimeOffset? asOf, UnknownAge unknownAge) =>
        ReferenceReport.FromJson(Report(resources, WithSilent(rules), asOf, unknownAge));

    /// <summary>The report of <c>check</c> with a rule set as it ships.</summary>
    public static string Report(IReadOnlyList<string> resources, string rules, DateTimeOffset? asOf, UnknownAge unknownAge) =>
        Report(resources, Sets[rules], asOf, unknownAge);

    private static string Report(IReadOnlyList<string> resources, RuleSet rules, DateTimeOffset? asOf, UnknownAge unknownAge)
    {
        var inputs = resources.SelectMany(Entries).Select((json, index) => Input(json, index)).ToArray();
        CheckReport? report = null;
        async Task RunAsync() => report = await new CheckRun(rules, Reader, Orders, new ChartedText(), new MemoryCheckChart())
            .RunAsync(inputs, Array.Empty<Problem>(), false, new CheckSettings(asOf, unknownAge == UnknownAge.StrictestBand ? Core.Judging.UnknownAge.StrictestBand : Core.Judging.UnknownAge.CannotTell), CancellationToken.None);

        // In memory nothing is waited for: the run has ended when it returns.
        if (!RunAsync().IsCompletedSuccessfully)
        {
            throw new InvalidOperationException("A run in memory did not end at once.");
        }

        using var json = new MemoryStream();
        CheckReportJson.Write(report!, json);
        return Encoding.UTF8.GetString(json.ToArray());
    }

    // A Bundle arrives as its entries, as it does from a file.
    private static IEnumerable<string> Entries(string json)
    {
        using var document = System.Text.Json.JsonDocument.Parse(json);
        return document.RootElement.GetProperty("resourceType").GetString() == "Bundle"
            ? [.. document.RootElement.GetProperty("entry").EnumerateArray().Select(entry => entry.GetProperty("resource").GetRawText())]
            : [json];
    }

    private static CheckInput Input(string json, int index)
    {
        var body = Encoding.UTF8.GetBytes(json);
        var item = DocumentEntryOf(body, index);
        return new CheckInput(item, $"input:{index}");
    }

    private static Arrival DocumentEntryOf(byte[] body, int index)
    {
        using var document = System.Text.Json.JsonDocument.Parse(body);
        var root = document.RootElement;
        var meta = root.TryGetProperty("meta", out var found) ? found : default;
        var known = meta.ValueKind == System.Text.Json.JsonValueKind.Object && meta.TryGetProperty("lastUpdated", out var stamp)
            ? stamp.GetDateTimeOffset()
            : DateTimeOffset.UnixEpoch;
        var version = meta.ValueKind == System.Text.Json.JsonValueKind.Object && meta.TryGetProperty("versionId", out var id) ? id.GetString() : null;
        return new Arrival(
            ArrivalKind.Resource, "input", root.GetProperty("resourceType").GetString(), root.TryGetProperty("id", out var own) ? own.GetString() : null, version,
            known, KnownBy.Import, body);
    }
}
