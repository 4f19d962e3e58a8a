using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>An estimate explains a finding where it is written, and by itself writes nothing: only one that was said and is no longer so is taken back.</summary>
public sealed class EstimateTests : AllChecksLifeCycle
{
    private const string Said = "Rough bench estimate, no limit: 220 mmHg through 14 Fr in 7 mm, open, may bring the trachea about 4 cmH2O, between 2 and 7,";

    [Fact]
    public async Task AFindingOfAnOpenPassTellsItInItsDetail_AndInNothingElse()
    {
        await RoundAsync(Ward.Patient, Tube(7), Pass("open", 14), Ward.Vacuum("v", 220, 10));

        var issue = Assert.Single(await Bench.IssuesAsync());
        Assert.Contains(Said, (string)issue["detail"]!, StringComparison.Ordinal);
        Assert.Contains(Said, (string)issue["text"]!["div"]!, StringComparison.Ordinal);
        Assert.DoesNotContain("estimate", Assert.Single(await Bench.FlagsAsync()).ToJsonString(), StringComparison.Ordinal);
        var recorded = FindingContent.Read((await RecordsAsync("vacuum-above-ceiling")).Single(one => one.Kind == FindingKind.Occurrence).Content.Span);
        Assert.Equal(TrachealPressure.Of(14m, 7m, 220m, Unit.MmHg), recorded.Issue!.Estimate);
    }

    [Fact]
    public async Task OneThatCanBeMadeOnlyLater_OrComesOutALittleOtherwise_AmendsNothing()
    {
        await RoundAsync(Ward.Patient, Pass("open", 14), Ward.Vacuum("v", 220, 10));
        await RoundAsync(Tube(7));
        Assert.Equal(("final", "1"), await IssueAsync());

        await RoundAsync(Tube(8));
        Assert.Equal(("final", "1"), await IssueAsync());
    }

    [Fact]
    public async Task OneThatWasSaid_AndCanNoLongerBeMade_IsTakenBackOnce()
    {
        await RoundAsync(Ward.Patient, Tube(7), Pass("open", 14), Ward.Vacuum("v", 220, 10));
        await RoundAsync(Pass("closed", 14));
        await RoundAsync(Ward.Catheter("other", 14, 60));

        Assert.Equal(("amended", "2"), await IssueAsync());
        Assert.DoesNotContain("estimate", (string)Assert.Single(await Bench.IssuesAsync())["detail"]!, StringComparison.Ordinal);
        await Bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task OneWhoseRangeNoLongerMeetsWhatWasSaid_IsAmended_AndANearerOneIsNot()
    {
        await RoundAsync(Ward.Patient, Tube(7), Pass("open", 16), Ward.Vacuum("v", 220, 10));
        await RoundAsync(Tube(8));
        Assert.Equal(("final", "1"), await IssueAsync());

        await RoundAsync(Tube(9));

        Assert.Equal(("amended", "2"), await IssueAsync());
        Assert.Contains("through 16 Fr in 9 mm", (string)Assert.Single(await Bench.IssuesAsync())["detail"]!, StringComparison.Ordinal);
    }

    private async Task<(string Status, string Version)> IssueAsync()
    {
        var issue = Assert.Single(await Bench.IssuesAsync());
        return (issue.Status(), issue.Version());
    }

    private static string Tube(int size) => $$"""
        {"resourceType":"Observation","id":"tube","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}] },
         "subject":{"reference":"Patient/p"},"effectiveDateTime":"{{Ward.Morning:yyyy-MM-ddTHH:mm:ssZ}}","valueQuantity":{"value":{{size}},"unit":"mm"} }
        """;

    private static string Pass(string system, int french) => $$"""
        {"resourceType":"Observation","id":"pass","status":"final","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-pass"}] },
         "subject":{"reference":"Patient/p"},"effectiveDateTime":"{{Ward.Morning.AddMinutes(10):yyyy-MM-ddTHH:mm:ssZ}}","component":[
          {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"catheter-size"}] },"valueQuantity":{"value":{{french}},"unit":"Fr"} },
          {"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-system"}] },
           "valueCodeableConcept":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care-answer","code":"{{system}}"}] } }] }
        """;

    private async Task RoundAsync(params string[] resources)
    {
        await PutAsync(resources);
        await Bench.RoundAsync();
    }
}
