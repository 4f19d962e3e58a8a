using AirwayGuard.Core.Findings;
using AirwayGuard.TestKit.Pipeline;
using Xunit;

namespace AirwayGuard.Worker.Tests.LifeCycle;

/// <summary>
/// An order that is mended or ended was what it was until then: its Flag ends, and what was said of it is not struck out. A hold
/// counts from when it was known.
/// </summary>
public sealed class EndedOrderTests : AllChecksLifeCycle
{
    private const string ByClock = "suction-ordered-by-clock", Despite = "suctioned-despite-order-not-to", Unread = "order-not-machine-readable";

    [Theory]
    [InlineData("completed", true, false)]
    [InlineData("revoked", true, true)]
    [InlineData("on-hold", true, false)]
    [InlineData("active", false, true)] // mended: no longer by the clock
    public async Task AnOrderThatEndsOrIsMended_EndsItsFlagAndKeepsWhatWasSaid(string status, bool byClock, bool restarts)
    {
        Bench.RestartsBetween = restarts;
        await RoundAsync(Ward.Patient, Order("active", byClock: true));
        Assert.Equal("active", Assert.Single(await Bench.FlagsAsync(ByClock)).Status());

        await RoundAsync(Order(status, byClock));
        await RoundAsync();

        Assert.Equal("inactive", Assert.Single(await Bench.FlagsAsync(ByClock)).Status());
        Assert.Equal(("final", "1"), (Assert.Single(await Bench.IssuesAsync(ByClock)).Status(), Assert.Single(await Bench.IssuesAsync(ByClock)).Version()));
        Assert.All(await RecordsAsync(ByClock), record => Assert.Equal(FindingState.Cleared, record.State));
        await Bench.NothingIsDoubledAsync();
    }

    [Fact]
    public async Task AnOrderEnteredInError_TakesBackWhatWasSaidOfIt()
    {
        await RoundAsync(Ward.Patient, Order("active", byClock: true));

        await RoundAsync(Order("entered-in-error", byClock: true));

        Assert.Equal("entered-in-error", Assert.Single(await Bench.FlagsAsync(ByClock)).Status());
        Assert.Equal("entered-in-error", Assert.Single(await Bench.IssuesAsync(ByClock)).Status());
    }

    [Fact]
    public async Task AnOrderThatIsResumed_IsShownAgainUnderItsKey()
    {
        await RoundAsync(Ward.Patient, Order("active", byClock: true));
        await RoundAsync(Order("on-hold", byClock: true));

        await RoundAsync(Order("active", byClock: true));

        Assert.Equal("active", Assert.Single(await Bench.FlagsAsync(ByClock)).Status());
        Assert.All(await RecordsAsync(ByClock), record => Assert.Equal(FindingState.Open, record.State));
        await Bench.NothingIsDoubledAsync();
    }

    // Its finding rests on no row: nothing of the order was read.
    [Fact]
    public async Task AnOrderOfWhichNothingWasRead_EndsLikeTheOthers()
    {
        await RoundAsync(Ward.Patient, Order("active", byClock: null));
        Assert.Single(await Bench.IssuesAsync(Unread));

        await RoundAsync(Order("completed", byClock: null));

        Assert.Equal("final", Assert.Single(await Bench.IssuesAsync(Unread)).Status());
        Assert.Equal("inactive", Assert.Single(await Bench.FlagsAsync(Unread)).Status());
        Assert.All(await RecordsAsync(Unread), record => Assert.Equal(FindingState.Cleared, record.State));
    }

    // A hold that came after the pass accuses nobody; one that was there before does.
    [Theory]
    [InlineData(10, 0)]
    [InlineData(60, 0)] // at the very time of the hold
    [InlineData(61, 1)]
    public async Task AHoldCountsFromWhenItWasKnown(int pass, int found)
    {
        await PutAsync(Ward.Patient, Order("active", byClock: false));
        await Bench.RoundAsync(TimeSpan.FromMinutes(5));
        Bench.Clock.Now = Ward.Morning.AddMinutes(60);
        await PutAsync(Order("on-hold", byClock: false));

        await PutAsync(Ward.Pass("s1", 8, pass));
        await Bench.RoundAsync();

        Assert.Equal(found, (await Bench.IssuesAsync(Despite)).Count);
    }

    [Fact]
    public async Task AnOrderWrittenAsOnHold_IsOnHoldFromTheBeginning()
    {
        await RoundAsync(Ward.Patient, Order("on-hold", byClock: false), Ward.Pass("s1", 8, 10));

        Assert.Single(await Bench.IssuesAsync(Despite));
    }

    // What was done against the hold stays said when the hold is lifted.
    [Fact]
    public async Task AHoldThatIsLifted_EndsWhatWasSaidAndStrikesOutNothing()
    {
        await RoundAsync(Ward.Patient, Order("on-hold", byClock: false), Ward.Pass("s1", 8, 10));

        await RoundAsync(Order("active", byClock: false));

        Assert.Equal("final", Assert.Single(await Bench.IssuesAsync(Despite)).Status());
        Assert.Equal(FindingState.Cleared, Assert.Single(await RecordsAsync(Despite)).State);
    }

    private static string Order(string status, bool? byClock) =>
        $$$"""{"resourceType":"ServiceRequest","id":"r","status":"{{{status}}}","intent":"order","authoredOn":"2026-03-02T07:00:00Z","subject":{"reference":"Patient/p"},"code":{"coding":[{"system":"https://airwayguard.example.org/fhir/CodeSystem/airway-care","code":"suction-pass"}]}{{{byClock switch
        {
            true => ""","occurrenceTiming":{"repeat":{"frequency":1,"period":2,"periodUnit":"h"}}""",
            false => ""","asNeededBoolean":true""",
            _ => "",
        }}}}}""";

    private async Task RoundAsync(params string[] resources)
    {
        await PutAsync(resources);
        await Bench.RoundAsync();
    }
}
