using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>An order that asks for suction by the clock and as needed in one.</summary>
public sealed class OrderTimingTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void By_the_clock_is_told_beside_as_needed_whichever_stands_first(bool clockFirst) =>
        Assert.Equal("breach by-clock", Adult()
            .Order("o", "09:00", "active", (Concepts.OrderByClock, clockFirst ? FactValue.Yes : FactValue.No), (Concepts.OrderByClock, clockFirst ? FactValue.No : FactValue.Yes))
            .SaidByBoth("suction-ordered-by-clock"));
}
