using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Findings;

public class FactWordsTests
{
    [Theory]
    [InlineData(45, 2, Unit.One, "0.45")]
    [InlineData(3, 0, Unit.Count, "3")]
    [InlineData(45, 0, Unit.Percent, "45 %")]
    [InlineData(120, 0, Unit.MmHg, "120 mm[Hg]")]
    [InlineData(120, 0, Unit.None, "120 (no unit)")]
    public void ANumber_IsFollowedByItsUnit_ButForABareRatioOrCount(long digits, byte scale, Unit unit, string words) =>
        Assert.Equal(words, FactWords.Of(FactValue.Number(digits, scale, unit)));
}
