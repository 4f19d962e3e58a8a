using System.Collections.Immutable;
using System.Text.Json.Nodes;
using System.Text.Json;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Fhir.Reading;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Host.Commands;
using AirwayGuard.Rules;
using AirwayGuard.Worker.Checking;
using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Every row of the shipped maps is wired: without it some scenario comes out differently.</summary>
public sealed class ShippedMapTests
{
    private static readonly ImmutableDictionary<string, RuleSet> Sets =
        ShippedRuleSets.Names.ToImmutableDictionary(name => name, name => ShippedRuleSets.Load(name).RuleSet!, StringComparer.Ordinal);

    public static TheoryData<string> Maps => [ShippedMaps.Standard.Name, ShippedMaps.DemoRows.Name];

    [Theory]
    [MemberData(nameof(Maps))]
    public async Task WithoutARowSomeScenarioComesOutDifferently(string name)
    {
        var inputs = await ReadAsync();
        var unheld = new List<string>();
        foreach (var (code, edited, _, _) in Rows(name).Where(row => !row.IsUnmatched))
        {
            var map = CodeMap.Load(name == ShippedMaps.Standard.Name ? [edited, ShippedMaps.DemoRows] : [ShippedMaps.Standard, edited]).Map!;
            if (!await AnyDiffersAsync(inputs.Where(input => input.Text.Contains($"\"{code}\"", StringComparison.Ordinal)), map))
            {
                unheld.Add(code);
            }
        }

        Assert.Empty(unheld);
    }

    /// <summary>
    /// Taking out a row mapped <c>unmatched</c> changes nothing by design, since it leaves a code out on purpose. What it must do is
    /// give no fact: a row charted with the code alone reads as none.
    /// </summary>
    [Theory]
    [MemberData(nameof(Maps))]
    public void ARowMappedAsUnmatchedMeansNothing(string name)
    {
        var map = ShippedMaps.WithDemoRows;
        foreach (var (code, _, system, _) in Rows(name).Where(row => row.IsUnmatched))
        {
            Assert.False(map.TryRow(Encoding.UTF8.GetBytes(system), Encoding.UTF8.GetBytes(code), out _), code);
            foreach (var info in Concepts.Table)
            {
                Assert.False(Concepts.TryFindInput(info.Code, out var concept) && map.TryAnswer(concept, system, code, out _), code);
            }
        }
    }

    private static async Task<bool> AnyDiffersAsync(IEnumerable<Input> inputs, CodeMap map)
    {
        foreach (var input in inputs)
        {
            foreach (var run in input.Scenario.Runs)
            {
                if (await ReportAsync(input, run, map) is var report && CheckComparer.Differences(report, run).Count > 0)
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static async Task<string> ReportAsync(Input input, ExpectedRun run, CodeMap map)
    {
        var asOf = run.AsOf is { } time ? DateTimeOffset.Parse(time, System.Globalization.CultureInfo.InvariantCulture) : (DateTimeOffset?)null;
        var settings = new CheckSettings(asOf, run.UnknownAge == "strictest-band" ? UnknownAge.StrictestBand : UnknownAge.CannotTell);
        var report = await new CheckRun(Sets[run.Rules], new FhirArrivalReader(map), new OrderWordsReader(map), new ChartedText(), new MemoryCheckChart())
            .RunAsync(input.Read.Inputs, input.Read.Problems, input.Read.Problems.Count > 0, settings, TestContext.Current.CancellationToken);
        using var json = new MemoryStream();
        CheckReportJson.Write(report, json);
        return Encoding.UTF8.GetString(json.ToArray());
    }

    private static async Task<List<Input>> ReadAsync()
    {
        var inputs = new List<Input>();
        foreach (var folder in ScenarioFolders.All)
        {
            var read = new CheckInputs();
            await read.ReadAsync([ScenarioRunner.InputOf(folder)], TestContext.Current.CancellationToken);
            inputs.Add(new Input(ExpectedScenario.Read(folder), TextOf(folder), read));
        }

        return inputs;
    }

    private static string TextOf(string folder) => File.ReadAllText(ScenarioRunner.InputOf(folder));

    private static IEnumerable<MapRow> Rows(string name)
    {
        var source = name == ShippedMaps.Standard.Name ? ShippedMaps.Standard : ShippedMaps.DemoRows;
        var groups = JsonNode.Parse(source.Json.Span)!["group"]!.AsArray();
        for (var group = 0; group < groups.Count; group++)
        {
            for (var element = 0; element < groups[group]!["element"]!.AsArray().Count; element++)
            {
                var edited = JsonNode.Parse(source.Json.Span)!;
                var elements = edited["group"]![group]!["element"]!.AsArray();
                var row = elements[element]!;
                elements.RemoveAt(element);
                yield return new MapRow(
                    row["code"]!.GetValue<string>(), new MapSource(name, JsonSerializer.SerializeToUtf8Bytes(edited)),
                    groups[group]!["source"]!.GetValue<string>(), row["target"]![0]!["equivalence"]!.GetValue<string>() == "unmatched");
            }
        }
    }

    private sealed record Input(ExpectedScenario Scenario, string Text, CheckInputs Read);

    private sealed record MapRow(string Code, MapSource Edited, string System, bool IsUnmatched);
}
