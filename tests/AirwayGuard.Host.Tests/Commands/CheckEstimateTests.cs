using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>The estimate beside a finding, in each of the forms that <c>check</c> prints.</summary>
public sealed class CheckEstimateTests
{
    private static readonly string Scenario = ScenarioFolders.All.Single(folder => folder.EndsWith("88-pressure-in-the-trachea", StringComparison.Ordinal));

    [Fact]
    public async Task AsJsonItStandsBesideTheFindingsItExplains_AndNoOthers()
    {
        var answer = await CheckAnswer.OfAsync(Scenario);

        var findings = answer.Report.GetProperty("findings").EnumerateArray().ToArray();
        var with = findings.Where(one => one.TryGetProperty("estimate", out _)).ToArray();
        Assert.Equal(
            ["Patient/half vacuum-above-ceiling", "Patient/open catheter-too-wide", "Patient/open vacuum-above-ceiling"],
            with.Select(one => $"{one.GetProperty("patient").GetString()} {one.GetProperty("check").GetString()}").Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Contains(findings, one => one.GetProperty("patient").GetString() == "Patient/closed" && one.GetProperty("check").GetString() == "vacuum-above-ceiling");
        var told = with.First(one => one.GetProperty("patient").GetString() == "Patient/open").GetProperty("estimate");
        Assert.Equal(["of", "about", "low", "high", "unit", "sources", "note"], told.EnumerateObject().Select(member => member.Name), StringComparer.Ordinal);
        Assert.Equal("A rough estimate from benches with a clean tube off the ventilator. It is no limit, and no verdict rests on it.", told.GetProperty("note").GetString());
        Assert.DoesNotContain("estimate", with[0].GetProperty("say").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AsTextItIsASentenceOfItsOwn()
    {
        var (_, text, _) = await InProcessCheck.RunAsync(["check", Scenario]);

        Assert.Equal(3, text.Split("  Rough bench estimate, no limit: ").Length - 1);
        Assert.Contains("200 mmHg through 14 Fr in 7.5 mm, open, may bring the trachea about 2 cmH2O, between 1 and 4, below atmosphere", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AsFhirItStandsInTheDetailOfTheDetectedIssue()
    {
        var (_, text, _) = await InProcessCheck.RunAsync(["check", Scenario, "--format", "fhir"]);

        using var bundle = JsonDocument.Parse(text);
        var details = bundle.RootElement.GetProperty("entry").EnumerateArray().Select(entry => entry.GetProperty("resource"))
            .Where(resource => resource.GetProperty("resourceType").GetString() == "DetectedIssue").Select(resource => resource.GetProperty("detail").GetString()!);
        Assert.Equal(3, details.Count(detail => detail.Contains("Rough bench estimate, no limit: ", StringComparison.Ordinal)));
    }
}
