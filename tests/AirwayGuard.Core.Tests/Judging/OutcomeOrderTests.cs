using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>suctioned-despite-order-not-to and order-not-machine-readable.</summary>
public sealed class OutcomeOrderTests
{
    private const string Despite = "suctioned-despite-order-not-to", Unread = "order-not-machine-readable";

    [Theory]
    [InlineData("09:59", "open")]
    [InlineData("10:00", "nothing")] // not before the pass
    [InlineData("11:00", "nothing")]
    public void APassAfterAnOrderNotToSuctionIsFound(string authored, string said)
    {
        var chart = Chart().Order("n", authored, "active", (Concepts.OrderDoNotSuction, FactValue.Yes));
        Assert.Equal(said, chart.Judge("strict-ranges").Tells(Despite));
        Assert.Equal(said, chart.Judge("guideline-2022").Tells(Despite));
    }

    [Theory]
    [InlineData("revoked")]
    [InlineData("completed")]
    [InlineData("draft")]
    [InlineData("on-hold")]
    public void AProhibitionThatIsNotActiveForbidsNothing(string status) =>
        Assert.Equal("nothing", Chart().Order("n", "08:00", status, (Concepts.OrderDoNotSuction, FactValue.Yes)).Judge().Tells(Despite));

    [Theory]
    [InlineData("08:00", "active", "no whether an order asks for suction or forbids it")]
    [InlineData("11:00", "active", "nothing")]
    [InlineData("08:00", "revoked", "nothing")]
    public void AnOrderThatMayForbidSuctionLeavesThePassUntold(string authored, string status, string said) =>
        Assert.Equal(said, Chart().Order("n", authored, status, (Concepts.OrderDoNotSuction, FactValue.Unreadable)).Judge().Tells(Despite));

    [Fact]
    public void AProhibitionThatCanBeReadCountsBesideOneThatCannot() =>
        Assert.Equal("open", Chart().Order("u", "08:00", "active", (Concepts.OrderDoNotSuction, FactValue.Unreadable))
            .Order("n", "09:00", "active", (Concepts.OrderDoNotSuction, FactValue.Yes)).Judge().Tells(Despite));

    [Fact]
    public void AProhibitionHoldsBesideAnOrderToSuction()
    {
        var found = Chart().Order("o", "09:00", "active", (Concepts.OrderAsNeeded, FactValue.Yes)).Order("n", "08:00", "active", (Concepts.OrderDoNotSuction, FactValue.Yes)).Judge();

        var finding = Assert.Single(found.Findings, one => one.Rule.Id == Despite);
        Assert.Equal((Severity.High, At("10:00")), (finding.Latest.Severity, finding.Latest.At));
        Assert.Single(finding.Latest.Evidence);
    }

    [Fact]
    public void AllOrdersOnHoldAreFoundAndOneActiveIsEnoughNotTo()
    {
        var chart = Chart().Order("o1", "08:00", "on-hold", (Concepts.OrderAsNeeded, FactValue.Yes)).Order("o2", "08:30", "on-hold");
        Assert.Equal("open", chart.Judge().Tells(Despite));
        Assert.Equal("open", chart.Order("later", "10:30", "active").Judge().Tells(Despite));
        Assert.Equal("nothing", chart.Order("o3", "09:00", "active").Judge().Tells(Despite));
    }

    // The pass is at 10:00; a hold that came with or after it forbade nothing, and the order asked for suction until then.
    [Theory]
    [InlineData("09:59", "open")]
    [InlineData("10:00", "nothing")]
    [InlineData("11:00", "nothing")]
    public void AHoldKnownToHaveComeLaterHoldsFromThen(string held, string said)
    {
        var after = Number((At(held) - At("08:00")) / TimeSpan.TicksPerSecond, Unit.Second);
        var chart = Chart().Order("o1", "08:00", "on-hold", (Concepts.OrderAsNeeded, FactValue.Yes), (Concepts.OrderHeldAfter, after));
        Assert.Equal(said, chart.Judge("strict-ranges").Tells(Despite));
        Assert.Equal(said, chart.Judge("guideline-2022").Tells(Despite));
        Assert.Equal(said, chart.Order("o2", "08:00", "on-hold").Judge().Tells(Despite));
    }

    [Fact]
    public void WithoutAnyOrderNothingIsSaid()
    {
        Assert.Equal("nothing", Chart().Judge().Tells(Despite));
        Assert.Equal("nothing", Chart().Order("gone", "08:00", "revoked").Judge().Tells(Despite));
        Assert.Equal("nothing", Chart().Order("o", "10:30", "on-hold").Judge().Tells(Despite));
    }

    [Fact]
    public void AnOrderThatForbidsPartOfTheActForbidsNotTheAct() => Assert.Equal("nothing", Chart()
        .Order("n", "08:00", "active", (Concepts.OrderDoNotSuction, FactValue.No), (Concepts.DepthTechnique, Answer("shallow"))).Judge().Tells(Despite));

    [Fact]
    public void AnOrderOfWhichAllWasReadIsReadable() =>
        Assert.Equal("nothing", Chart().Order("o", "08:00", "active", (Concepts.OrderAsNeeded, FactValue.Yes)).Judge().Tells(Unread));

    [Fact]
    public void SomethingUnreadOrNothingReadIsFoundLowUntilTheOrderIsMendedOrEnded()
    {
        var text = Chart().Order("o", "08:00", "active", (Concepts.OrderAsNeeded, FactValue.Yes), (Concepts.OrderUnread, FactValue.Text)).Judge();
        Assert.Equal((Severity.Low, "unread"), Latest(text));
        Assert.Equal((Severity.Low, "nothing-read"), Latest(Chart().Order("o", "08:00", "active").Judge()));
        Assert.Equal((Severity.Low, "unread"), Latest(Chart().Order("o", "08:00", "active", (Concepts.OrderVacuumHigh, FactValue.Unreadable)).Judge()));

        var ended = Chart().Order("o", "08:00", "active").Then().Order("o", "08:00", "completed").Judge();
        Assert.DoesNotContain(ended.Findings, one => one.Rule.Id == Unread && one.State == FindingState.Open);
    }

    [Theory]
    [InlineData("full-line")]
    [InlineData("intermittent")]
    public void FullLineOrIntermittentAskedForIsHigh(string mode) => Assert.Equal(
        (Severity.High, mode), Latest(Chart().Order("o", "08:00", "active", (Concepts.OrderAsNeeded, FactValue.Yes), (Concepts.RegulatorMode, Answer(mode))).Judge()));

    [Fact]
    public void RegulatedSuctionAskedForIsRead() => Assert.Equal(
        "nothing", Chart().Order("o", "08:00", "active", (Concepts.RegulatorMode, Answer("regulated"))).Judge().Tells(Unread));

    private static (Severity, string?) Latest(DerivedFindings found)
    {
        var finding = Assert.Single(found.Findings, one => one.Rule.Id == Unread);
        Assert.True(finding.Stands);
        return (finding.Latest.Severity, finding.Latest.Code);
    }

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5).Pass("s", "10:00");
}
