using System.Text.Json;
using AirwayGuard.Host.DemoWard;
using AirwayGuard.Host.Tests.DemoWard;
using AirwayGuard.TestKit.Histories;
using AirwayGuard.Worker.Checking;
using Xunit;

namespace AirwayGuard.Host.Tests.Properties;

/// <summary>In a report of <c>check</c>, what was raised is what is shown and what is withheld, and nothing is withheld that nothing else says.</summary>
public sealed class RaisedAndWithheldTests
{
    [Theory]
    [InlineData("strict-ranges")]
    [InlineData("guideline-2022")]
    public void RandomHistoriesAddUp(string rules)
    {
        var withheld = 0;
        for (var seed = 0; seed < 400; seed++)
        {
            withheld += AddsUp(EngineRuns.Report(HistoryRenderer.Render(HistoryGenerator.Next(seed)), rules, null, UnknownAge.CannotTell), $"seed {seed}");
        }

        Assert.True(withheld > 0, "No history withheld anything.");
    }

    [Fact]
    public async Task TheDemoWardAddsUp()
    {
        using var json = new MemoryStream();
        CheckReportJson.Write(await WardJudging.Judge(WardPlan.Build(WardJudging.End, 1), WardPlan.Corrections(WardJudging.End, 1)), json);
        AddsUp(System.Text.Encoding.UTF8.GetString(json.ToArray()), "demo ward");
    }

    private static int AddsUp(string report, string of)
    {
        using var document = JsonDocument.Parse(report);
        var findings = document.RootElement.GetProperty("findings").EnumerateArray().ToList();
        var raised = document.RootElement.GetProperty("raised");
        var (all, shown, withheld) = (raised.GetProperty("findings").GetInt32(), raised.GetProperty("shown").GetInt32(), raised.GetProperty("withheld").GetInt32());
        Assert.True(all == findings.Count && all == shown + withheld, $"{of}: {all} raised, {shown} shown, {withheld} withheld, {findings.Count} listed");
        Assert.True(findings.Count(By) == withheld, $"{of}: {withheld} withheld, another number marked");
        foreach (var one in findings.Where(By))
        {
            var (by, patient) = (one.GetProperty("withheldBy").GetString(), one.GetProperty("patient").GetString());
            Assert.True(
                findings.Exists(other => other.GetProperty("check").GetString() == by && other.GetProperty("patient").GetString() == patient && !By(other)),
                $"{of}: {one.GetProperty("check")} is withheld by {by}, which is not shown");
        }

        return withheld;
    }

    private static bool By(JsonElement finding) => finding.TryGetProperty("withheldBy", out _);
}
