using System.Text.Json.Nodes;
using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// An order is held against the airway in use now. What was found against the tube before stood on it and ends with it: it is not struck out, and the one
/// DetectedIssue of the order tells of the tube in use.
/// </summary>
public sealed class ExchangedTubeTests : AllChecksLifeCycle
{
    private const string Wide = "catheter-too-wide";

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task AnotherTubeThatItIsTooWideForToo_EndsTheFlagOfTheFirstAndRaisesOneOfItsOwn(bool restarts)
    {
        Bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());
        var first = Assert.Single(await Bench.FlagsAsync(Wide));

        await RoundAsync(Tube("t2", 8m, 60));
        await RoundAsync();

        Assert.Equal(["active", "inactive"], (await Bench.FlagsAsync(Wide)).Select(flag => flag.Status()).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Equal("inactive", (await Bench.FlagsAsync(Wide)).Single(flag => flag.Key() == first.Key()).Status());
        Assert.NotEqual("entered-in-error", Assert.Single(await Bench.IssuesAsync(Wide)).Status(), StringComparer.Ordinal);
        Assert.Equal(1, (await RecordsAsync(Wide)).Count(record => record.Kind == FindingKind.Occurrence && record.State == FindingState.Open));
        await Bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task AnotherTubeThatItFits_EndsTheFlagAndStrikesOutNothing()
    {
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());

        await RoundAsync(Tube("t2", 10m, 60));
        await RoundAsync();

        Assert.Equal(("inactive", "final"), (Assert.Single(await Bench.FlagsAsync(Wide)).Status(), Assert.Single(await Bench.IssuesAsync(Wide)).Status()));
        Assert.All(await RecordsAsync(Wide), record => Assert.Equal(FindingState.Cleared, record.State));
    }

    [Fact]
    public async Task AnOrderThatEndsAfterIt_EndsBothAndStrikesOutNothing()
    {
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());
        await RoundAsync(Tube("t2", 8m, 60));

        await RoundAsync(Order("completed"));
        await RoundAsync();

        Assert.All(await Bench.FlagsAsync(Wide), flag => Assert.Equal("inactive", flag.Status()));
        Assert.NotEqual("entered-in-error", Assert.Single(await Bench.IssuesAsync(Wide)).Status(), StringComparer.Ordinal);
        Assert.All(await RecordsAsync(Wide), record => Assert.Equal(FindingState.Cleared, record.State));
    }

    [Fact]
    public async Task AnOrderEnteredInErrorAfterIt_TakesBothBack()
    {
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());
        await RoundAsync(Tube("t2", 8m, 60));

        await RoundAsync(Order("entered-in-error"));

        Assert.All(await Bench.FlagsAsync(Wide), flag => Assert.Equal("entered-in-error", flag.Status()));
        Assert.Equal("entered-in-error", Assert.Single(await Bench.IssuesAsync(Wide)).Status());
    }

    [Fact]
    public async Task AnExchangeThatWasAMistake_ShowsTheFirstAgainAndTakesBackTheSecond()
    {
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());
        var first = Assert.Single(await Bench.FlagsAsync(Wide)).Key();
        await RoundAsync(Tube("t2", 8m, 60));

        await RoundAsync(Tube("t2", 8m, 60, "entered-in-error"));

        Assert.All(await Bench.FlagsAsync(Wide), flag => Assert.Equal(flag.Key() == first ? "active" : "entered-in-error", flag.Status()));
    }

    // The answer was given to the tube that is out: of the one in place nobody has said anything.
    [Fact]
    public async Task AMitigationGivenForTheTubeBefore_ClosesNothingOfTheTubeInUse()
    {
        await RoundAsync(Ward.Patient, Tube("t1", 7m, 0), Order());
        var issue = Assert.Single(await Bench.IssuesAsync(Wide));
        issue["mitigation"] = new JsonArray(new JsonObject { ["action"] = new JsonObject { ["text"] = "Known" } });
        await Bench.PutAsync(issue.ToJsonString());
        await RoundAsync();
        Assert.Equal("inactive", Assert.Single(await Bench.FlagsAsync(Wide)).Status());

        await RoundAsync(Tube("t2", 8m, 60));
        await RoundAsync();
        await RoundAsync();

        Assert.Equal(["active", "inactive"], (await Bench.FlagsAsync(Wide)).Select(flag => flag.Status()).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    private static string Tube(string id, decimal millimetres, int minute, string status = "final") =>
        $$$"""{"resourceType":"Observation","id":"{{{id}}}","status":"{{{status}}}","code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"tube-inner-diameter"}]},"subject":{"reference":"Patient/p"},"effectiveDateTime":"{{{Ward.Morning.AddMinutes(minute - 240):yyyy-MM-ddTHH:mm:ssZ}}}","valueQuantity":{"value":{{{millimetres}}},"system":"http://unitsofmeasure.org","code":"mm"}}""";

    private static string Order(string status = "active") =>
        $$$"""{"resourceType":"DeviceRequest","id":"r","status":"{{{status}}}","intent":"order","authoredOn":"{{{Ward.Morning.AddMinutes(-220):yyyy-MM-ddTHH:mm:ssZ}}}","subject":{"reference":"Patient/p"},"codeCodeableConcept":{"text":"Suction catheter"},"parameter":[{"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"catheter-size"}]},"valueQuantity":{"value":14,"system":"http://unitsofmeasure.org","code":"[Ch]"}}]}""";

    private async Task RoundAsync(params string[] resources)
    {
        await PutAsync(resources);
        await Bench.RoundAsync();
    }
}
