using System.Text.Json.Nodes;
using AirwayGuard.TestKit.Histories;
using Xunit;
using Xunit.Sdk;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>A property is worth something only if it fails for a judge that breaks it.</summary>
public sealed class HistoryPropertiesTests
{
    [Fact]
    public void A_judge_that_reads_one_unit_only_is_found() => IsFound(HistoryProperties.UnitsChangeNoVerdict, (h, rules, asOf, age) =>
        HistoryProperties.Reference(h with { Rows = h.Rows.RemoveAll(r => r.Value is Charted.Number { Unit: "kPa" }) }, rules, asOf, age));

    [Fact]
    public void A_judge_that_drops_an_offset_is_found() => IsFound(HistoryProperties.TimeShiftsChangeNoVerdict, (h, rules, asOf, age) =>
        HistoryProperties.Reference(h.MoveTimes(t => new DateTimeOffset(t.DateTime, TimeSpan.Zero)), rules, asOf, age));

    [Fact]
    public void A_judge_that_passes_what_is_missing_is_found() => IsFound(HistoryProperties.MissingFactsNeverPass, (h, rules, asOf, age) =>
        HistoryProperties.Reference(h, rules, asOf, age) is var report && h.Rows.Any(r => r.Concept == "fio2") ? report : report with { Findings = [], CannotTell = [] });

    [Fact]
    public void A_judge_that_uses_what_was_entered_in_error_is_found() => IsFound(HistoryProperties.EnteredInErrorIsNeverCharted, (h, rules, asOf, age) =>
        HistoryProperties.Reference(h with { Rows = [.. h.Rows.Select(r => r with { Status = "final" })] }, rules, asOf, age));

    [Fact]
    public void A_judge_that_looks_ahead_is_found() => IsFound(HistoryProperties.LaterFactsChangeNothingBefore, (h, rules, _, age) =>
        HistoryProperties.Reference(h, rules, null, age));

    [Fact]
    public void A_judge_that_counts_repeats_is_found()
    {
        Holds(seed => HistoryProperties.OrderBatchesAndRepeatsChangeNothing(CountDistinct, seed));
        Fails(seed => HistoryProperties.OrderBatchesAndRepeatsChangeNothing(CountAll, seed));
    }

    [Fact]
    public void A_judge_that_mixes_patients_is_found()
    {
        Holds(seed => HistoryProperties.AnotherPatientChangesNothing(OneFindingPerPatient, seed));
        Fails(seed => HistoryProperties.AnotherPatientChangesNothing((resources, _, _, _) => Counted(resources.Count) with { CannotTell = [new("c", "Patient/p1", Told.Start, resources.Count)] }, seed));
    }

    [Fact]
    public void A_judge_that_forgets_earlier_batches_is_found()
    {
        Holds(seed => HistoryProperties.BatchByBatchEqualsAtOnce(
            (batches, _) => [.. batches.Select((_, n) => CountDistinct([.. batches.Take(n + 1).SelectMany(b => b)], "", null, UnknownAge.CannotTell))], CountDistinct, seed));
        Fails(seed => HistoryProperties.BatchByBatchEqualsAtOnce(
            (batches, _) => [.. batches.Select(b => CountDistinct(b, "", null, UnknownAge.CannotTell))], CountDistinct, seed));
    }

    [Fact]
    public void A_judge_that_differs_from_the_reference_is_found_with_a_small_history()
    {
        var failure = Assert.Throws<FailException>(() => HistoryProperties.EqualsTheReference((_, _, _, _) => Counted(0), 2));
        Assert.Contains("seed 2", failure.Message, StringComparison.Ordinal);
        Assert.True(failure.Message.Split("\"resourceType\":\"Observation\"").Length <= 3, failure.Message);
    }

    private static ReferenceReport CountDistinct(IReadOnlyList<string> resources, string ruleSet, DateTimeOffset? asOf, UnknownAge age) =>
        Counted(Unbundled(resources).Distinct(StringComparer.Ordinal).Count());

    private static ReferenceReport CountAll(IReadOnlyList<string> resources, string ruleSet, DateTimeOffset? asOf, UnknownAge age) =>
        Counted(Unbundled(resources).Count());

    private static ReferenceReport OneFindingPerPatient(IReadOnlyList<string> resources, string ruleSet, DateTimeOffset? asOf, UnknownAge age) => Counted(0) with
    {
        CannotTell = [.. resources.Select(r => JsonNode.Parse(r)!).Where(r => (string?)r["resourceType"] == "Patient")
            .Select(r => new ReportedCannotTell("c", "Patient/" + (string?)r["id"], Told.Start, 1))],
    };

    private static IEnumerable<string> Unbundled(IEnumerable<string> resources) => resources.Select(r => JsonNode.Parse(r)!)
        .SelectMany(r => (string?)r["resourceType"] == "Bundle" ? r["entry"]!.AsArray().Select(e => e!["resource"]!) : [r])
        .Select(r => r.ToJsonString());

    private static ReferenceReport Counted(int passes) => new(new(passes, 0, 0, 0), [], []);

    private static void IsFound(Action<JudgeHistory, int> property, JudgeHistory broken) => Fails(seed => property(broken, seed));

    private static void Holds(Action<int> property)
    {
        for (var seed = 0; seed < 20; seed++)
        {
            property(seed);
        }
    }

    private static void Fails(Action<int> property)
    {
        Assert.Contains(Enumerable.Range(0, 200), seed => Record.Exception(() => property(seed)) is XunitException);
    }
}
