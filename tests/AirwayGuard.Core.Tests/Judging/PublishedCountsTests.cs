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
/// Studies charted again, event by event: what the checks count of them is the published count, and so its share and interval. The
/// intervals are Wilson's, 95 %, worked out here by its formula and not by anything of the product.
/// </summary>
public sealed class PublishedCountsTests
{
    private static readonly RuleSet Shipped = ShippedRuleSets.Load(ShippedRuleSets.Default).RuleSet!;

    /// <summary>
    /// Schults et al., Aust Crit Care 2020;33:350-7: 955 suctions of 100 children, 180 with desaturation (19 %). Maggiore et al., Respir Care
    /// 2013;58:1588-97: 4,506 suctions before the guideline, desaturation in 6.5 % of them, which is 293; heart rate in 1.1 %, which is 50.
    /// </summary>
    [Theory]
    [InlineData("desaturation-with-suction", 2020, 955, 180, 18.8, 16.5, 21.5)]
    [InlineData("desaturation-with-suction", 1961, 4506, 293, 6.5, 5.8, 7.3)]
    [InlineData("heart-rate-event-with-suction", 1961, 4506, 50, 1.1, 0.8, 1.5)]
    public void AStudyChartedAgainIsCountedAsPublished(string check, int born, int passes, int events, double percent, double low, double high)
    {
        var chart = new ChartBuilder().Born(born, 2, 20);
        for (var pass = 0; pass < passes; pass++)
        {
            // Spread evenly; between events the nearest value on the other side of the definition.
            var isEvent = (long)(pass + 1) * events / passes > (long)pass * events / passes;
            Chart(chart, pass, check == "desaturation-with-suction" ? (Concepts.Spo2, Unit.Percent, 97, isEvent ? 92 : 93) : (Concepts.HeartRate, Unit.PerMinute, 90, isEvent ? 49 : 50));
        }

        var found = chart.Judge(Shipped with { Rules = [Shipped.Find(check)!] }).Findings.Sum(finding => finding.Occurrences.Length);

        Assert.Equal(events, found);
        Agrees(found, passes, percent, low, high);
    }

    /// <summary>
    /// 281 intensive-care nurses of Changsha on what they keep to, BMC Nurs 2021 (s12912-021-00715-y) table 3, and counts of Schults 2020 and of
    /// Lema-Zuluaga et al., Colomb Med 2018;49:148-53: the printed percent is that of the printed counts.
    /// </summary>
    [Theory]
    [InlineData(187, 281, 66.5)] // need assessed
    [InlineData(167, 281, 59.4)] // catheter below half the diameter
    [InlineData(156, 281, 55.5)] // closed where oxygen or PEEP is high
    [InlineData(190, 281, 67.6)] // hands and gloves
    [InlineData(141, 281, 50.2)] // no routine saline
    [InlineData(158, 281, 56.2)] // depth
    [InlineData(145, 281, 51.6)] // pressure 80 to 120 mmHg
    [InlineData(191, 281, 68.0)] // under 15 s
    [InlineData(175, 281, 62.3)] // under 3 passes
    [InlineData(35, 606, 5.8)] // Lema-Zuluaga, as needed
    [InlineData(48, 649, 7.4)] // and by routine
    public void APrintedPercentIsThatOfItsCounts(int events, int all, double percent) =>
        Assert.Equal((decimal)percent, Math.Round(100m * events / all, 1, MidpointRounding.AwayFromZero));

    /// <summary>The same paper prints 22 (47 %) of 45, which is 48.9 %: no count to lean on.</summary>
    [Fact]
    public void APercentThatIsNotThatOfItsCountsIsKnown() => Assert.Equal(48.9m, Math.Round(100m * 22 / 45, 1));

    [Theory]
    [InlineData(145, 281, 51.6, 45.8, 57.4)]
    [InlineData(211, 955, 22.1, 19.6, 24.8)]
    [InlineData(180, 955, 18.8, 16.5, 21.5)]
    public void AnIntervalIsAsStated(int events, int all, double percent, double low, double high) => Agrees(events, all, percent, low, high);

    private static void Agrees(int events, int all, double percent, double low, double high)
    {
        // Wilson 1927: (p + z²/2n ± z √(p(1−p)/n + z²/4n²)) / (1 + z²/n)
        const double Z = 1.959963985;
        var (p, n) = ((double)events / all, (double)all);
        var (middle, half, whole) = (p + (Z * Z / (2 * n)), Z * Math.Sqrt((p * (1 - p) / n) + (Z * Z / (4 * n * n))), 1 + (Z * Z / n));

        Assert.Equal(percent, Math.Round(100 * p, 1));
        Assert.Equal((low, high), (Math.Round(100 * (middle - half) / whole, 1), Math.Round(100 * (middle + half) / whole, 1)));
    }

    private static void Chart(ChartBuilder chart, int pass, (Concept Concept, Unit Unit, int Before, int After) row)
    {
        var (day, hour, id) = (1 + (pass / 24), pass % 24, pass.ToString(CultureInfo.InvariantCulture));
        chart.Pass("s" + id, $"{day} {hour:00}:10")
            .Row("b" + id, row.Concept, $"{day} {hour:00}:08", Number(row.Before, row.Unit))
            .Row("a" + id, row.Concept, $"{day} {hour:00}:12", Number(row.After, row.Unit));
    }
}
