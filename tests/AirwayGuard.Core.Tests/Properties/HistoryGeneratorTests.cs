using System.Text.Json;
using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>Random histories prove something only where they reach it.</summary>
public sealed class HistoryGeneratorTests
{
    private const int Many = 2000;

    private static readonly Lazy<IReadOnlyList<(History History, ReferenceReport Report)>> Judged = new(() =>
        [.. Enumerable.Range(0, Many).Select(seed => HistoryGenerator.Next(seed)).Select((h, n) =>
            (h, ReferenceJudge.Judge(h, n % 2 == 0 ? ReferenceJudge.StrictRanges : ReferenceJudge.Guideline2022)))]);

    // Shipped silent in both rule sets, they are never told.
    private static readonly string[] Silent = ["wall-supply-unsurveyed", "suctioned-too-often", "safe-depth-not-on-file", "closed-catheter-change-overdue"];

    public static TheoryData<string> Checks => [.. ReferenceReport.Checks.Except(Silent, StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Each_check_is_breached_in_many_histories(string check) =>
        Assert.InRange(Judged.Value.Count(j => j.Report.Findings.Any(f => f.Check == check)), Many / 100, Many);

    [Theory]
    [InlineData("vacuum-above-ceiling")]
    [InlineData("catheter-too-wide")]
    [InlineData("pass-too-long")]
    [InlineData("preoxygenation-missing")]
    [InlineData("suction-ordered-by-clock")]
    public void Each_check_that_can_lack_a_fact_lacks_it_in_many_histories(string check) =>
        Assert.InRange(Judged.Value.Count(j => j.Report.CannotTell.Any(c => c.Check == check)), Many / 50, Many);

    [Theory]
    [InlineData("vacuum-above-ceiling")]
    [InlineData("regulator-on-full-line")]
    [InlineData("catheter-too-wide")]
    [InlineData("blood-stained-secretions-trend")]
    public void Each_standing_check_is_cleared_and_repeated_in_some(string check)
    {
        var findings = Judged.Value.SelectMany(j => j.Report.Findings).Where(f => f.Check == check).ToList();
        Assert.InRange(findings.Count(f => f.State == "cleared"), 5, findings.Count);
        Assert.InRange(findings.Count(f => f.State == "open"), 5, findings.Count);
        Assert.InRange(findings.Count(f => f.Count > 1), 5, findings.Count);
    }

    [Theory]
    [InlineData("neonate")]
    [InlineData("infant")]
    [InlineData("child")]
    [InlineData("adult")]
    [InlineData("unknown")]
    public void Each_age_band_meets_a_finding(string band) =>
        Assert.InRange(Judged.Value.Count(j => j.Report.Findings.Any(f => f.AgeBand == band)), Many / 50, Many);

    [Theory]
    [InlineData("regulator-on-full-line")]
    public void Some_occurrences_are_withheld(string by) =>
        Assert.InRange(Judged.Value.Count(j => j.Report.Findings.Any(f => f.WithheldBy == by)), 5, Many);

    [Fact]
    public void The_same_seed_makes_the_same_history() =>
        Assert.Equal(HistoryRenderer.Render(HistoryGenerator.Next(7)), HistoryRenderer.Render(HistoryGenerator.Next(7)));

    [Fact]
    public void Every_resource_is_json_with_its_type_and_id_and_every_reference_is_met_or_a_parent()
    {
        foreach (var history in Judged.Value.Take(50).Select(j => j.History))
        {
            var resources = HistoryRenderer.Render(history).Select(r => JsonDocument.Parse(r).RootElement).ToList();
            var known = resources.Select(r => r.GetProperty("resourceType").GetString() + "/" + r.GetProperty("id").GetString()).ToHashSet(StringComparer.Ordinal);
            Assert.All(resources.SelectMany(References), reference =>
                Assert.True(known.Contains(reference) || reference.Contains("-parent-", StringComparison.Ordinal), reference));
        }
    }

    private static IEnumerable<string> References(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p => p.NameEquals("reference") ? [p.Value.GetString()!] : References(p.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(References),
        _ => [],
    };
}
