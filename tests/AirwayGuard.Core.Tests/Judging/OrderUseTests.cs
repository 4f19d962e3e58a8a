using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What an order's own parts say that is to be suctioned: anything but the airway is no order that is judged; two uses, or one that cannot be read, leave it open.</summary>
public sealed class OrderUseTests
{
    private const string Vacuum = "ordered-vacuum-above-ceiling", Clock = "suction-ordered-by-clock", NotRead = "order-not-machine-readable";
    private const string Despite = "suctioned-despite-order-not-to", Wide = "catheter-too-wide", Saline = "saline-without-reason", Unit = "vacuum-unit-doubtful";

    [Theory]
    [InlineData("oral")]
    [InlineData("gastric")]
    [InlineData("chest-drain")]
    [InlineData("wound")]
    [InlineData("other")]
    public void An_order_of_another_suction_is_judged_by_no_check(string use)
    {
        var found = Tube().Order("o", "09:00", "active", Everything(Use(use))).Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    [Fact]
    public void So_is_one_whose_request_for_equipment_says_it()
    {
        var found = Tube().Order("o", "09:00", "active", Everything()).Equipment("d", "o", "09:00", Use("gastric")).Judge();

        Assert.Empty(found.Findings);
    }

    [Fact]
    public void That_the_airway_is_meant_says_nothing_beyond_that_it_is_an_order()
    {
        var found = Tube().Order("o", "09:00", "active", Use("airway")).Judge();

        Assert.Equal("nothing-read", Assert.Single(found.Findings, finding => finding.Rule.Id == NotRead).Latest.Code);
    }

    [Fact]
    public void An_order_of_the_airway_is_judged_whether_or_not_it_says_so()
    {
        foreach (var order in new[] { Everything(), Everything(Use("airway")) })
        {
            var found = Tube().Order("o", "09:00", "active", order).Judge();
            Assert.Equal(["breach 300", "breach by-clock", "breach 0.583", "breach true"], [found.Said(Vacuum), found.Said(Clock), found.Said(Wide), found.Said(Saline)]);
        }
    }

    [Fact]
    public void Of_two_uses_or_one_that_cannot_be_read_every_check_that_would_have_answered_is_open_and_it_is_told_as_not_read()
    {
        (Concept, FactValue)[][] unclear = [[Use("airway"), Use("gastric")], [Use("oral"), Use("gastric")], [Unread], [Use("airway"), Unread], [Unread, Use("gastric")]];
        foreach (var uses in unclear)
        {
            var found = Tube().Order("o", "09:00", "active", Everything(uses)).Judge();
            Assert.All([found.Said(Vacuum), found.Said(Clock), found.Said(Wide), found.Said(Saline)], said => Assert.Equal("open OrderUse", said));
            Assert.Equal("breach unread", found.Said(NotRead));
        }
    }

    [Fact]
    public void So_is_a_vacuum_whose_unit_is_doubtful() => Assert.Equal(
        "open OrderUse", Adult().Order("o", "09:00", "active", (Concepts.OrderVacuumHigh, Number(12, Core.Quantities.Unit.MmHg)), Unread).Judge().Said(Unit));

    [Theory]
    [InlineData("on-hold")]
    [InlineData("active")]
    public void An_order_of_another_suction_forbids_no_suction_of_the_airway(string status)
    {
        (Concept, FactValue)[] says = status == "active" ? [Use("gastric"), (Concepts.OrderDoNotSuction, FactValue.Yes)] : [Use("gastric")];

        Assert.Equal("", Adult().Order("o", "09:00", status, says).Pass("s", "10:00").Judge().Said(Despite));
    }

    [Fact]
    public void An_active_one_does_not_mask_that_every_order_of_the_airway_is_on_hold()
    {
        var held = Adult().Order("h", "09:00", "on-hold").Pass("s", "10:00");
        Assert.Equal("breach yes", held.Judge().Said(Despite));
        Assert.Equal("breach yes", held.Order("g", "09:00", "active", Use("gastric")).Judge().Said(Despite));
    }

    [Fact]
    public void Nor_does_one_whose_equipment_on_hold_says_it_forbid()
    {
        var chart = Adult().Order("h", "09:00", "on-hold").Equipment("d", "h", "09:00", Use("gastric")).Pass("s", "10:00");

        Assert.Equal("", chart.Judge().Said(Despite));
    }

    [Fact]
    public void Of_one_that_nobody_can_tell_the_pass_is_open_where_it_would_matter()
    {
        Assert.Equal("open WhetherForbidden", Adult().Order("o", "09:00", "active", Unread, (Concepts.OrderDoNotSuction, FactValue.Yes)).Pass("s", "10:00").Judge().Said(Despite));
        Assert.Equal("open WhetherForbidden", Adult().Order("o", "09:00", "on-hold", Unread).Pass("s", "10:00").Judge().Said(Despite));
        Assert.Equal("open WhetherForbidden", Adult().Order("o", "09:00", "active", Unread).Order("h", "09:00", "on-hold").Pass("s", "10:00").Judge().Said(Despite));
        Assert.Equal("", Adult().Order("o", "09:00", "active", Unread).Order("a", "09:00", "active").Order("h", "09:00", "on-hold").Pass("s", "10:00").Judge().Said(Despite));
        Assert.Equal("", Adult().Order("o", "09:00", "active", Unread).Pass("s", "10:00").Judge().Said(Despite));
    }

    private static (Concept, FactValue) Unread => (Concepts.SuctionUse, FactValue.Unreadable);

    private static (Concept, FactValue) Use(string use) => (Concepts.SuctionUse, Answer(use));

    private static (Concept, FactValue)[] Everything(params (Concept, FactValue)[] with) =>
    [
        (Concepts.OrderVacuumHigh, Number(300, Core.Quantities.Unit.MmHg)), (Concepts.OrderByClock, FactValue.Yes),
        (Concepts.CatheterSize, Number(14, Core.Quantities.Unit.French)), (Concepts.SalineInstilled, FactValue.Yes), .. with,
    ];

    private static ChartBuilder Tube() => Adult().Row("k", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
        .Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Core.Quantities.Unit.Millimetre));
}
