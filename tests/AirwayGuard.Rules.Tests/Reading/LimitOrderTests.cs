using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Tests.Reading;

public sealed class LimitOrderTests
{
    private static Limit Of(Comparison comparison, double low, double high, Unit unit) =>
        new(comparison, (decimal)low, (decimal)high, unit, "", "", SourceStatus.Cited);

    [Theory]
    [InlineData(Comparison.Above, 120, Unit.MmHg, Comparison.Above, 150, Unit.MmHg, true)]
    [InlineData(Comparison.Above, 150, Unit.MmHg, Comparison.Above, 150, Unit.MmHg, false)]
    [InlineData(Comparison.AtOrAbove, 150, Unit.MmHg, Comparison.Above, 150, Unit.MmHg, true)]
    [InlineData(Comparison.Above, 150, Unit.MmHg, Comparison.AtOrAbove, 150, Unit.MmHg, false)]
    [InlineData(Comparison.Above, 20, Unit.Kilopascal, Comparison.Above, 150, Unit.MmHg, false)] // 150.01 mm[Hg]
    [InlineData(Comparison.Above, 15, Unit.CmHg, Comparison.Above, 151, Unit.MmHg, true)]
    [InlineData(Comparison.Below, 90, Unit.Percent, Comparison.Below, 80, Unit.Percent, true)]
    [InlineData(Comparison.Below, 80, Unit.Percent, Comparison.Below, 0.9, Unit.One, false)]
    [InlineData(Comparison.AtOrBelow, 90, Unit.Percent, Comparison.Below, 0.9, Unit.One, true)]
    [InlineData(Comparison.Above, 1, Unit.Minute, Comparison.Above, 61, Unit.Second, true)]
    [InlineData(Comparison.Above, 12, Unit.Month, Comparison.Above, 366, Unit.Day, true)]
    [InlineData(Comparison.Above, 1, Unit.Centimetre, Comparison.Above, 9, Unit.Millimetre, false)]
    [InlineData(Comparison.Above, 1, Unit.Kilogram, Comparison.Above, 1001, Unit.Gram, true)]
    public void The_limit_that_fewer_values_pass_is_the_stricter(
        Comparison comparison, double limit, Unit unit, Comparison otherComparison, double other, Unit otherUnit, bool stricter)
    {
        Assert.True(LimitOrder.SameDirection(comparison, otherComparison));
        Assert.Equal(stricter, LimitOrder.IsStricter(Of(comparison, limit, limit, unit), Of(otherComparison, other, other, otherUnit)));
    }

    [Theory]
    [InlineData(20, 30, false)]
    [InlineData(22, 30, true)]
    [InlineData(20, 28, true)]
    [InlineData(18, 32, false)]
    public void A_range_is_stricter_where_either_end_is_further_in(double low, double high, bool stricter) => Assert.Equal(
        stricter, LimitOrder.IsStricter(Of(Comparison.Outside, low, high, Unit.CmH2O), Of(Comparison.Outside, 20, 30, Unit.CmH2O)));

    [Theory]
    [InlineData(Comparison.Above, Comparison.Below)]
    [InlineData(Comparison.Outside, Comparison.Above)]
    [InlineData(Comparison.Is, Comparison.Is)]
    [InlineData(Comparison.Missing, Comparison.Missing)]
    public void Comparisons_that_run_another_way_or_none_are_not_held_against_each_other(Comparison one, Comparison other) =>
        Assert.False(LimitOrder.SameDirection(one, other));
}
