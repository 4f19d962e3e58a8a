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

    /// <summary>Of the sizes on sale.</summary>
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

    private static int Largest(HashSet<int> tooWide) => TradeSizes.LastOrDefault(size => !tooWide.Contains(size));

    // One pass with each size, an hour apart, in the same tube.
    private static HashSet<int> TooWide(int born, decimal millimetres, RuleSet rules)
    {
        int[] sizes = [.. TradeSizes, 9];
        var chart = new ChartBuilder().Born(born, 2, 20).Row("t", Concepts.TubeInnerDiameter, "00:10", Number(millimetres, Unit.Millimetre));
        foreach (var size in sizes)
        {
            chart.Row("s" + size, $"{size}:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(size, Unit.French)));
        }

        var found = chart.Judge(rules);
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "catheter-too-wide");
        var wide = found.Findings.Where(one => one.Rule.Id == "catheter-too-wide").SelectMany(one => one.Occurrences).Select(one => one.At).ToHashSet();
        return [.. sizes.Where(size => wide.Contains(At($"{size}:00")))];
    }
}
