using AirwayGuard.Worker.Overrides;
using Xunit;

namespace AirwayGuard.Worker.Tests.Overrides;

public sealed class WilsonIntervalTests
{
    // Newcombe, Stat Med 1998;17:857, table I, method 3 (score interval, no correction for continuity): not read there, but as several public
    // test suites quote the table, and recomputed.
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0.0000, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public void ThePublishedExamplesComeOut(int hits, int trials, double low, double high)
    {
        var interval = WilsonInterval.Of(hits, trials)!.Value;

        Assert.Equal(low, interval.Low, 0.00005);
        Assert.Equal(high, interval.High, 0.00005);
    }

    [Fact]
    public void OfNothingTriedThereIsNone() => Assert.Null(WilsonInterval.Of(0, 0));

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(49)]
    [InlineData(1_000_000)]
    public void AtNoneAndAtAllTheBoundIsExact_AndTheOtherMirrorsIt(int trials)
    {
        var (none, all) = (WilsonInterval.Of(0, trials)!.Value, WilsonInterval.Of(trials, trials)!.Value);

        Assert.Equal((0d, 1d), (none.Low, all.High));
        Assert.Equal(none.High, 1 - all.Low, 1e-12);
        Assert.InRange(none.High, double.Epsilon, 0.9999);
    }

    // The bounds are the shares whose distance from the observed one is just 1.96 of their own standard errors: Wilson's definition.
    [Fact]
    public void EachBoundLiesJustAsFarFromTheShareAsItsOwnErrorAllows()
    {
        foreach (var (hits, trials) in from trials in Enumerable.Range(2, 60) from hits in Enumerable.Range(1, trials - 1) select (hits, trials))
        {
            var (share, interval) = ((double)hits / trials, WilsonInterval.Of(hits, trials)!.Value);
            Assert.InRange(share, interval.Low, interval.High);
            Assert.All([interval.Low, interval.High], bound => Assert.Equal(1.959963984540054, Math.Abs(share - bound) / Math.Sqrt(bound * (1 - bound) / trials), 1e-9));
        }
    }

    [Theory]
    [InlineData(-1, 3)]
    [InlineData(4, 3)]
    [InlineData(0, -1)]
    public void WhatCannotHaveBeenCountedIsRefused(int hits, int trials) => Assert.Throws<ArgumentOutOfRangeException>(() => WilsonInterval.Of(hits, trials));
}
