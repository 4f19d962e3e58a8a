using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>The events of the published studies of suctioning, as the shipped checks find them.</summary>
public sealed class ComplicationDefinitionsTests
{
    private const string Fall = "desaturation-with-suction", Rate = "heart-rate-event-with-suction";

    /// <summary>
    /// Maggiore et al., Respir Care 2013;58:1588-97 (adults; as quoted by another publication): desaturation is a fall by 5 points; heart
    /// rate above 150 or below 50 per minute, or a new arrhythmia. Nagraj et al., Pediatr Res 2019;86:622-7 (preterm infants): heart rate
    /// below 100 per minute for 4 s, saturation below 80 % for 10 s. Jongerden et al., J Crit Care 2012;27:647-54: changes were gone after
    /// 5 minutes, and small: 0.3 to 0.7 points between open and closed systems.
    /// </summary>
    public static TheoryData<string, int, string, string, decimal, decimal, string, bool> Published => new()
    {
        { "Maggiore 2013: 5 points", 1961, Fall, "spo2", 97m, 92m, "10:02", true },
        { "Maggiore 2013: less than 5 points", 1961, Fall, "spo2", 97m, 92.1m, "10:02", false },
        { "Maggiore 2013: above 150", 1961, Rate, "heart-rate", 90m, 151m, "10:02", true },
        { "Maggiore 2013: 150 is not above", 1961, Rate, "heart-rate", 90m, 150m, "10:02", false },
        { "Maggiore 2013: below 50", 1961, Rate, "heart-rate", 90m, 49m, "10:02", true },
        { "Maggiore 2013: 50 is not below", 1961, Rate, "heart-rate", 90m, 50m, "10:02", false },
        { "Nagraj 2019: below 100", 2026, Rate, "heart-rate", 140m, 99m, "10:02", true },
        { "Nagraj 2019: 100 is not below", 2026, Rate, "heart-rate", 140m, 100m, "10:02", false },
        { "Nagraj 2019: below 80", 2026, Fall, "spo2", 83m, 79m, "10:02", true },
        { "Nagraj 2019: 80 is not below", 2026, Fall, "spo2", 84m, 80m, "10:02", false },
        { "Jongerden 2012: the mean difference is no event", 1961, Fall, "spo2", 97m, 96.3m, "10:02", false },
        { "Jongerden 2012: after 5 minutes it is not of the pass", 1961, Fall, "spo2", 97m, 80m, "10:05:01", false },
    };

    [Theory]
    [MemberData(nameof(Published))]
    public void APublishedDefinitionAndItsOtherSide(string source, int born, string check, string row, decimal before, decimal after, string at, bool isEvent)
    {
        Assert.True(Concepts.TryFindInput(row, out var concept));
        var unit = concept == Concepts.Spo2 ? Unit.Percent : Unit.PerMinute;
        var chart = new ChartBuilder().Born(born, 2, 20).Pass("s", "10:00")
            .Row("b", concept, "09:58", Number(before, unit)).Row("a", concept, at, Number(after, unit));

        foreach (var set in (string[])["strict-ranges", "guideline-2022"])
        {
            Assert.True(isEvent == chart.Judge(set).Findings.Any(one => one.Rule.Id == check), source);
        }
    }

    /// <summary>Maggiore 2013 counts a new arrhythmia, as charted; what is charted as no reaction, or as another one, is none.</summary>
    [Theory]
    [InlineData("arrhythmia", true)]
    [InlineData("none", false)]
    [InlineData("hypertension", false)]
    public void ANewArrhythmiaIsOneWhereItIsChartedAsTheReaction(string reaction, bool isEvent)
    {
        var chart = new ChartBuilder().Born(1961, 4, 5).Pass("s", "10:00", (Concepts.SuctionReaction, Answer(reaction)));

        Assert.Equal(isEvent, chart.Judge().Findings.Any(one => one.Rule.Id == Rate));
    }

    /// <summary>
    /// Blood is counted per suction in Maggiore 2013 and van de Leur 2003 (Intensive Care Med 2003;29:426-32), as charted after a clear
    /// baseline. Two of the last three sessions, or frank blood once, is common practice, no source.
    /// </summary>
    [Theory]
    [InlineData("clear clear blood-streaked", false)]
    [InlineData("clear blood-streaked blood-streaked", true)]
    [InlineData("blood-streaked clear blood-streaked", true)]
    [InlineData("blood-streaked clear clear blood-streaked", false)] // three sessions apart
    [InlineData("clear clear frank-blood", true)]
    [InlineData("clear brown rusty", false)] // old blood, and no word for fresh
    public void BloodInTwoOfThreeSessionsIsATrend(string looks, bool isFound)
    {
        var chart = new ChartBuilder().Born(1961, 4, 5);
        foreach (var (look, hour) in looks.Split(' ').Select((look, index) => (look, 8 + (2 * index))))
        {
            chart.Pass("s" + hour, $"{hour}:00", (Concepts.SecretionAppearance, Answer(look)));
        }

        foreach (var set in (string[])["strict-ranges", "guideline-2022"])
        {
            Assert.Equal(isFound, chart.Judge(set).Findings.Any(one => one.Rule.Id == "blood-stained-secretions-trend"));
        }
    }

    /// <summary>Maggiore 2013: more than 6 suctions a day was an independent risk.</summary>
    [Theory]
    [InlineData(6, false)]
    [InlineData(7, true)]
    public void MoreThanSixADayIsTheFrequencyNamedAsARisk(int sessions, bool isFound)
    {
        var chart = new ChartBuilder().Born(1961, 4, 5);
        for (var i = 0; i < sessions; i++)
        {
            chart.Pass("s" + i, $"{i * 3:00}:30");
        }

        Assert.Equal(isFound, chart.Judge().Findings.Any(one => one.Rule.Id == "suctioned-too-often"));
    }
}
