using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Two passes charted at one instant, one with too wide a catheter.</summary>
public sealed class SameInstantPassesTests
{
    [Theory]
    [InlineData("a", "b")]
    [InlineData("b", "a")]
    public void A_pass_of_the_same_instant_does_not_end_what_is_told_of_the_other(string wide, string narrow) =>
        Assert.Equal("breach 0.583", Adult().Row("t", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre))
            .Pass(wide, "10:00", (Concepts.CatheterSize, Number(14, Unit.French))).Pass(narrow, "10:00", (Concepts.CatheterSize, Number(10, Unit.French)))
            .Judge().Said("catheter-too-wide"));
}
