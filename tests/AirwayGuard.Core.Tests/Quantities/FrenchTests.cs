using System.Globalization;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Quantities;

public sealed class FrenchTests
{
    // Trade sizes of suction catheters.
    private static readonly decimal[] Standard = [5m, 6m, 7m, 8m, 10m, 12m, 14m, 16m, 18m];

    // ISO 8836:2014 cl. 5.1: 1 mm = 3 F. UCUM's older [Ch] (1 mm / pi) would give 3.8197 for 12.
    [Theory]
    [InlineData(5, 1.6667)]
    [InlineData(6, 2.0)]
    [InlineData(8, 2.6667)]
    [InlineData(10, 3.3333)]
    [InlineData(12, 4.0)]
    [InlineData(14, 4.6667)]
    [InlineData(16, 5.3333)]
    public void The_outside_diameter_is_a_third_of_the_size(double french, double millimetres) =>
        Assert.Equal((decimal)millimetres, Math.Round(French.OutsideDiameter((decimal)french), 4));

    // Ratio table computed from ISO 8836:2014 cl. 5.1; percent of the inner diameter for 5, 6, 7, 8, 10, 12, 14, 16 Fr; x: does not fit.
    [Theory]
    [InlineData(2.5, "66.7 80.0 93.3 x x x x x")]
    [InlineData(3.0, "55.6 66.7 77.8 88.9 x x x x")]
    [InlineData(3.5, "47.6 57.1 66.7 76.2 95.2 x x x")]
    [InlineData(4.0, "41.7 50.0 58.3 66.7 83.3 x x x")]
    [InlineData(4.5, "37.0 44.4 51.9 59.3 74.1 88.9 x x")]
    [InlineData(5.0, "33.3 40.0 46.7 53.3 66.7 80.0 93.3 x")]
    [InlineData(5.5, "30.3 36.4 42.4 48.5 60.6 72.7 84.8 97.0")]
    [InlineData(6.0, "27.8 33.3 38.9 44.4 55.6 66.7 77.8 88.9")]
    [InlineData(6.5, "25.6 30.8 35.9 41.0 51.3 61.5 71.8 82.1")]
    [InlineData(7.0, "23.8 28.6 33.3 38.1 47.6 57.1 66.7 76.2")]
    [InlineData(7.5, "22.2 26.7 31.1 35.6 44.4 53.3 62.2 71.1")]
    [InlineData(8.0, "20.8 25.0 29.2 33.3 41.7 50.0 58.3 66.7")]
    [InlineData(8.5, "19.6 23.5 27.5 31.4 39.2 47.1 54.9 62.7")]
    [InlineData(9.0, "18.5 22.2 25.9 29.6 37.0 44.4 51.9 59.3")]
    public void The_share_of_the_tube_is_as_tabled(double tube, string percents)
    {
        foreach (var (french, printed) in Standard.Zip(percents.Split(' ')))
        {
            var ratio = French.Ratio(french, (decimal)tube);
            if (printed == "x")
            {
                Assert.True(ratio >= 1m && French.CompareRatio(french, (decimal)tube, 1m) >= 0, $"{french} Fr");
            }
            else
            {
                Assert.Equal(decimal.Parse(printed, CultureInfo.InvariantCulture), Math.Round(100m * ratio, 1, MidpointRounding.AwayFromZero));
            }
        }
    }

    // Largest standard catheter by policy, computed: below 50 % (NSW ACI 2014 rec. 8; Ireton 2007), at most 50 %, below 70 % (AARC
    // 2010, infants). 0: none fits.
    [Theory]
    [InlineData(2.5, 0, 0, 5)]
    [InlineData(3.0, 0, 0, 6)]
    [InlineData(3.5, 5, 5, 7)]
    [InlineData(4.0, 5, 6, 8)]
    [InlineData(4.5, 6, 6, 8)]
    [InlineData(5.0, 7, 7, 10)]
    [InlineData(5.5, 8, 8, 10)]
    [InlineData(6.0, 8, 8, 12)]
    [InlineData(6.5, 8, 8, 12)]
    [InlineData(7.0, 10, 10, 14)]
    [InlineData(7.5, 10, 10, 14)]
    [InlineData(8.0, 10, 12, 16)]
    [InlineData(8.5, 12, 12, 16)]
    [InlineData(9.0, 12, 12, 18)]
    public void The_largest_standard_catheter_is_as_tabled(double tube, int belowHalf, int atMostHalf, int belowSevenTenths)
    {
        Assert.Equal(belowHalf, Standard.LastOrDefault(size => French.CompareRatio(size, (decimal)tube, 0.50m) < 0));
        Assert.Equal(atMostHalf, Standard.LastOrDefault(size => French.CompareRatio(size, (decimal)tube, 0.50m) <= 0));
        Assert.Equal(belowSevenTenths, Standard.LastOrDefault(size => French.CompareRatio(size, (decimal)tube, 0.70m) < 0));
    }

    [Theory]
    // Auckland newborn guideline 2015: 5-6 Fr in 2.5, 6-7 in 3.0 and 3.5, 8 in 4.0 and 4.5; the larger of each pair.
    [InlineData(2.5, 6, 80.0)]
    [InlineData(3.0, 7, 77.8)]
    [InlineData(3.5, 7, 66.7)]
    [InlineData(4.0, 8, 66.7)]
    [InlineData(4.5, 8, 59.3)]
    // A tracheostomy home booklet: 10 Fr in 5.0 to 6.0, 12 in 6.5, 14 in 7.0 to 9.0.
    [InlineData(5.0, 10, 66.7)]
    [InlineData(5.5, 10, 60.6)]
    [InlineData(6.0, 10, 55.6)]
    [InlineData(6.5, 12, 61.5)]
    [InlineData(7.0, 14, 66.7)]
    [InlineData(8.0, 14, 58.3)]
    [InlineData(9.0, 14, 51.9)]
    public void Published_pairs_take_more_than_half_of_the_tube(double tube, int french, double percent)
    {
        Assert.Equal((decimal)percent, Math.Round(100m * French.Ratio(french, (decimal)tube), 1, MidpointRounding.AwayFromZero));
        Assert.Equal(1, French.CompareRatio(french, (decimal)tube, 0.50m));
        Assert.Equal(percent > 70 ? 1 : -1, French.CompareRatio(french, (decimal)tube, 0.70m));
    }

    [Theory]
    // "Twice the inner diameter, next smaller size", as several teaching pages print it: 8 Fr for 5.0, 14 Fr for 8.0.
    [InlineData(5.0, 8)]
    [InlineData(8.0, 14)]
    public void Twice_the_diameter_and_the_next_smaller_size_is_still_more_than_half(double tube, int printed)
    {
        Assert.Equal(printed, Standard.Last(size => size < 2m * (decimal)tube));
        Assert.Equal(1, French.CompareRatio(printed, (decimal)tube, 0.50m));
    }

    [Theory]
    // Exactly half: 12 Fr in 8.0, 6 in 4.0, 9 in 6.0; exactly seven tenths: 21 in 10.0.
    [InlineData(12, 8.0, 0.50)]
    [InlineData(6, 4.0, 0.50)]
    [InlineData(9, 6.0, 0.50)]
    [InlineData(21, 10.0, 0.70)]
    public void A_ratio_that_is_exactly_the_limit_equals_it(int french, double tube, double limit)
    {
        Assert.Equal(0, French.CompareRatio(french, (decimal)tube, (decimal)limit));
        Assert.Equal((decimal)limit, French.Ratio(french, (decimal)tube));
    }
}
