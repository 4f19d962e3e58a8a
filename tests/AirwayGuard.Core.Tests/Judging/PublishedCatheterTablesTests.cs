using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>
/// Catheters that published tables print for a tube, each with the policies it breaks, and the largest trade size each policy
/// leaves. Diameters by ISO 8836: 1 mm is 3 F.
/// </summary>
public sealed class PublishedCatheterTablesTests
{
    private const string Strict = "strict-ranges", Guideline = "guideline-2022";
    private static readonly int[] TradeSizes = [5, 6, 7, 8, 10, 12, 14, 16, 18];
    private static readonly int[] Sizes = [.. TradeSizes, 9, 21];
    private static readonly RuleSet StrictSet = ShippedRuleSets.Load(Strict).RuleSet!, GuidelineSet = ShippedRuleSets.Load(Guideline).RuleSet!;

    /// <summary>Held against both rule sets in three bands.</summary>
    /// <param name="seventy">Breaks the 0.70 of neonates and infants, in both sets.</param>
    /// <param name="half">Breaks "less than one half" of children and adults.</param>
    /// <param name="overHalf">Breaks "at most one half" too.</param>
    [Theory]
    [InlineData(2.5, 5, 66.7, false, true, true)] // Auckland newborn, Iowa newborn
    [InlineData(2.5, 6, 80.0, true, true, true)] // Auckland newborn, Iowa newborn
    [InlineData(3.0, 6, 66.7, false, true, true)] // Auckland newborn, Iowa newborn
    [InlineData(3.0, 7, 77.8, true, true, true)] // Auckland newborn
    [InlineData(3.5, 6, 57.1, false, true, true)] // Auckland newborn
    [InlineData(3.5, 7, 66.7, false, true, true)] // Auckland newborn
    [InlineData(4.0, 8, 66.7, false, true, true)] // Auckland newborn, Iowa newborn
    [InlineData(4.5, 8, 59.3, false, true, true)] // Auckland newborn
    [InlineData(5.0, 10, 66.7, false, true, true)] // Tracheostomy home booklet
    [InlineData(5.5, 10, 60.6, false, true, true)] // Tracheostomy home booklet
    [InlineData(6.0, 10, 55.6, false, true, true)] // Tracheostomy home booklet
    [InlineData(6.5, 12, 61.5, false, true, true)] // Tracheostomy home booklet
    [InlineData(7.0, 14, 66.7, false, true, true)] // Tracheostomy home booklet
    [InlineData(8.0, 14, 58.3, false, true, true)] // Tracheostomy home booklet
    [InlineData(9.0, 14, 51.9, false, true, true)] // Tracheostomy home booklet
    [InlineData(8.0, 12, 50.0, false, true, false)] // exactly one half, adult
    [InlineData(6.0, 9, 50.0, false, true, false)] // exactly one half, child
    [InlineData(4.0, 6, 50.0, false, true, false)] // exactly one half, newborn's tube
    [InlineData(3.5, 8, 76.2, true, true, true)] // too wide by any
    [InlineData(5.0, 8, 53.3, false, true, true)] // twice the inner diameter, next smaller size, as several teaching pages print it; so 14 in 8.0
    public void A_printed_pair_breaks_these_policies(double millimetres, int french, double percent, bool seventy, bool half, bool overHalf)
    {
        Assert.Equal((decimal)percent, Math.Round(french * 100m / (3m * (decimal)millimetres), 1, MidpointRounding.AwayFromZero));
        Assert.Equal(seventy, TooWide(2026, (decimal)millimetres, StrictSet).Contains(french));
        Assert.Equal(seventy, TooWide(2026, (decimal)millimetres, GuidelineSet).Contains(french));
        Assert.Equal(half, TooWide(2020, (decimal)millimetres, GuidelineSet).Contains(french));
        Assert.Equal(overHalf, TooWide(2020, (decimal)millimetres, StrictSet).Contains(french));
        Assert.Equal(half, TooWide(1961, (decimal)millimetres, GuidelineSet).Contains(french));
        Assert.Equal(overHalf, TooWide(1961, (decimal)millimetres, StrictSet).Contains(french));
    }

    /// <summary>
    /// Computed from ISO 8836:2014 cl. 5.1, percent of the inner diameter for 5, 6, 7, 8, 10, 12, 14, 16 Fr; x: does not fit. UCUM's older
    /// [Ch] (1 mm / pi) would give 47.7 for 12 Fr in 8.0 mm.
    /// </summary>
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
    public void The_share_of_the_tube_is_as_tabled(double millimetres, string percents)
    {
        // Where nothing is let pass every share is told.
        var told = Charted(1961, (decimal)millimetres).JudgeWith("catheter-too-wide", AtMostOnePercent).Findings
            .Where(one => one.Rule.Id is "catheter-too-wide" or "catheter-does-not-fit")
            .SelectMany(one => one.Occurrences, (one, occurrence) => (one.Rule.Id, occurrence.At, occurrence.Value, occurrence.Withheld)).ToList();
        foreach (var (size, printed) in TradeSizes.Zip(percents.Split(' ')))
        {
            var (id, _, share, _) = told.Single(one => one.At == At($"{size}:00") && !one.Withheld);

            Assert.Equal(printed == "x" ? "catheter-does-not-fit" : "catheter-too-wide", id);
            Assert.True(printed == "x" || Math.Round(100m * share!.Value, 1, MidpointRounding.AwayFromZero) == decimal.Parse(printed, CultureInfo.InvariantCulture), $"{size} Fr");
        }
    }

    /// <summary>21 Fr in 10.0 mm: exactly 0.70, which "less than" leaves out.</summary>
    [Fact]
    public void Exactly_seven_tenths_is_within_in_one_set_only()
    {
        Assert.Contains(21, TooWide(2026, 10.0m, GuidelineSet));
        Assert.DoesNotContain(21, TooWide(2026, 10.0m, StrictSet));
    }

    /// <summary>Of the sizes on sale, by NSW ACI 2014 rec. 8 and Ireton 2007 (below one half) and AARC 2010 (below 0.70, infants).</summary>
    /// <param name="below">Largest below one half; 0 where none fits.</param>
    /// <param name="atMost">Largest at most one half.</param>
    /// <param name="seventy">Largest below 0.70.</param>
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
    public void The_largest_trade_size_by_policy(double millimetres, int below, int atMost, int seventy)
    {
        Assert.Equal(below, Largest(TooWide(1961, (decimal)millimetres, GuidelineSet)));
        Assert.Equal(atMost, Largest(TooWide(1961, (decimal)millimetres, StrictSet)));
        Assert.Equal(seventy, Largest(TooWide(2026, (decimal)millimetres, GuidelineSet)));
        // No trade size is exactly seven tenths of a printed tube.
        Assert.Equal(seventy, Largest(TooWide(2026, (decimal)millimetres, StrictSet)));
    }

    private static Rule AtMostOnePercent(Rule rule) => rule with
    {
        Criteria = [rule.Criteria[0] with { Limits = BandLimits.All(rule.Criteria[0].Limits.For(AgeBand.Adult)! with { Low = 0.01m, High = 0.01m }) }],
    };

    private static int Largest(HashSet<int> tooWide) => TradeSizes.LastOrDefault(size => !tooWide.Contains(size));

    // One pass with each size, an hour apart, in the same tube.
    private static ChartBuilder Charted(int born, decimal millimetres)
    {
        var chart = new ChartBuilder().Born(born, 2, 20).Row("t", Concepts.TubeInnerDiameter, "00:10", Number(millimetres, Unit.Millimetre));
        foreach (var size in Sizes)
        {
            chart.Row("s" + size, $"{size}:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(size, Unit.French)));
        }

        return chart;
    }

    private static HashSet<int> TooWide(int born, decimal millimetres, RuleSet rules)
    {
        var found = Charted(born, millimetres).Judge(rules);
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "catheter-too-wide");
        var wide = found.Findings.Where(one => one.Rule.Id == "catheter-too-wide").SelectMany(one => one.Occurrences).Select(one => one.At).ToHashSet();
        return [.. Sizes.Where(size => wide.Contains(At($"{size}:00")))];
    }
}
