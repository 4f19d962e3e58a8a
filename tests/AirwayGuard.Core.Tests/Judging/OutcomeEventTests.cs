using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>vitals-missing-around-pass, desaturation-with-suction and heart-rate-event-with-suction.</summary>
public sealed class OutcomeEventTests
{
    private const string Vitals = "vitals-missing-around-pass", Fall = "desaturation-with-suction", Rate = "heart-rate-event-with-suction";

    // The pass lasts from 10:00:00 to 10:00:10.
    [Theory]
    [InlineData("09:55:00", "10:05:10", "nothing")]
    [InlineData("09:54:59", "10:05:10", "open")]
    [InlineData("09:55:00", "10:05:11", "open")]
    [InlineData("10:00:00", "10:00:10", "nothing")]
    [InlineData("10:00:01", "10:00:10", "open")] // during the pass is not before it
    [InlineData("10:00:00", "10:00:09", "open")] // nor after it
    public void BothVitalSignsAreAskedForWithinFiveMinutesOnEitherSide(string before, string after, string said)
    {
        var chart = Chart().Procedure("s", "10:00:00", "10:00:10")
            .Row("o1", Concepts.Spo2, before, Number(97, Unit.Percent)).Row("o2", Concepts.Spo2, after, Number(96, Unit.Percent))
            .Row("h1", Concepts.HeartRate, before, Number(80, Unit.PerMinute)).Row("h2", Concepts.HeartRate, after, Number(82, Unit.PerMinute));

        Assert.Equal(said, chart.Judge("strict-ranges").Tells(Vitals));
        Assert.Equal(said, chart.Judge("guideline-2022").Tells(Vitals));
    }

    [Theory]
    [InlineData("o1")]
    [InlineData("o2")]
    [InlineData("h1")]
    [InlineData("h2")]
    public void AnyOneOfTheFourMissingIsFoundAfterTwoHours(string missing)
    {
        var chart = Chart().Pass("s", "10:00");
        foreach (var (id, concept, at, unit) in ((string, Concept, string, Unit)[])
            [("o1", Concepts.Spo2, "09:58", Unit.Percent), ("o2", Concepts.Spo2, "10:02", Unit.Percent), ("h1", Concepts.HeartRate, "09:58", Unit.PerMinute), ("h2", Concepts.HeartRate, "10:02", Unit.PerMinute)])
        {
            _ = id == missing ? chart : chart.Row(id, concept, at, Number(96, unit));
        }

        Assert.Equal("nothing", chart.Judge(asOf: "11:59").Tells(Vitals));
        Assert.Equal("open", chart.Judge(asOf: "12:00").Tells(Vitals));
    }

    [Fact]
    public void OneColumnAtTheInstantOfThePassIsNotBothBeforeAndAfter() => Assert.Equal("open", Chart()
        .Pass("s", "10:00", (Concepts.Spo2, Number(96, Unit.Percent)), (Concepts.HeartRate, Number(80, Unit.PerMinute))).Judge().Tells(Vitals));

    [Theory]
    [InlineData(97, 93, "nothing")]
    [InlineData(97, 92, "open")]
    [InlineData(94, 90, "nothing")]
    [InlineData(93, 89, "open")] // four points, and below 90
    [InlineData(88, 85, "nothing")] // it was below 90 before
    [InlineData(88, 83, "open")] // it was, and fell by five
    [InlineData(90, 89, "open")]
    public void AFallOfFivePointsOrBelowNinetyIsAnEventInAdults(int before, int after, string said)
    {
        Assert.Equal(said, Saturation(Chart(), before, after).Judge("strict-ranges").Tells(Fall));
        Assert.Equal(said, Saturation(Chart(), before, after).Judge("guideline-2022").Tells(Fall));
    }

    [Theory]
    [InlineData(84, 80, "nothing")]
    [InlineData(83, 79, "open")]
    [InlineData(79, 75, "nothing")]
    [InlineData(92, 87, "open")]
    public void InANeonateTheMarkIsEighty(int before, int after, string said) =>
        Assert.Equal(said, Saturation(Neonate(), before, after).Judge().Tells(Fall));

    [Fact]
    public void AShareOfOneIsTheSameAsAPercentage() => Assert.Equal("open", Chart().Pass("s", "10:00")
        .Row("o1", Concepts.Spo2, "09:58", Number(0.97m, Unit.One)).Row("o2", Concepts.Spo2, "10:02", Number(92, Unit.Percent)).Judge().Tells(Fall));

    [Fact]
    public void WithoutABaselineOnlyWhatIsBelowTheMarkCanBeTold()
    {
        Assert.Equal("open", After(89).Judge().Tells(Fall));
        Assert.Equal("no oxygen saturation before the pass", After(90).Judge().Tells(Fall));
        Assert.Equal("no oxygen saturation before the pass", After(90).Row("o1", Concepts.Spo2, "09:54:59", Number(97, Unit.Percent)).Judge().Tells(Fall));

        static ChartBuilder After(int percent) => Chart().Pass("s", "10:00").Row("o2", Concepts.Spo2, "10:02", Number(percent, Unit.Percent));
    }

    [Fact]
    public void WithoutSaturationAfterOnlyAChartedReactionTells()
    {
        var chart = Chart().Row("o1", Concepts.Spo2, "09:58", Number(97, Unit.Percent));
        Assert.Equal("no oxygen saturation after the pass", chart.Pass("s", "10:00").Judge().Tells(Fall));
        Assert.Equal("nothing", Chart().Pass("s", "10:00", (Concepts.SuctionReaction, Answer("none"))).Judge().Tells(Fall));
        Assert.Equal("open", Chart().Pass("s", "10:00", (Concepts.SuctionReaction, Answer("desaturation"))).Judge().Tells(Fall));
    }

    [Fact]
    public void WhatCannotBeToldIsWaitedForAndAnEventIsNot()
    {
        Assert.Equal("nothing", Chart().Pass("s", "10:00").Judge(asOf: "11:59").Tells(Fall));
        Assert.Equal("no oxygen saturation after the pass", Chart().Pass("s", "10:00").Judge(asOf: "12:00").Tells(Fall));
        Assert.Equal("open", Saturation(Chart(), 97, 90).Judge(asOf: "10:03").Tells(Fall));
    }

    [Theory]
    [InlineData("10:05:10", "open")]
    [InlineData("10:05:11", "no oxygen saturation after the pass")]
    public void TheNadirIsLookedForUntilFiveMinutesAfterTheEnd(string at, string said)
    {
        Assert.Equal(said, Chart().Procedure("s", "10:00:00", "10:00:10").Row("o1", Concepts.Spo2, "09:58", Number(97, Unit.Percent))
            .Row("o2", Concepts.Spo2, at, Number(90, Unit.Percent)).Judge().Tells(Fall));
        Assert.Equal(said, Chart().Pass("s", "10:00", (Concepts.PassDuration, Number(10, Unit.Second))).Row("o1", Concepts.Spo2, "09:58", Number(97, Unit.Percent))
            .Row("o2", Concepts.Spo2, at, Number(90, Unit.Percent)).Judge().Tells(Fall));
    }

    [Fact]
    public void TheLastSaturationBeforeThePassIsTheBaselineAndTheLowestAfterCounts()
    {
        var found = Saturation(Chart(), 93, 88).Row("o0", Concepts.Spo2, "09:56", Number(99, Unit.Percent)).Row("o3", Concepts.Spo2, "10:04", Number(97, Unit.Percent)).Judge();

        Assert.Equal(5m, Assert.Single(found.Findings, one => one.Rule.Id == Fall).Latest.Value);
    }

    [Fact]
    public void ASaturationChartedOverThePassWasNotThereBefore() => Assert.Equal("open", Chart()
        .Row("s", "10:00:00", "10:00:10", null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.Spo2, Number(88, Unit.Percent))).Judge().Tells(Fall));

    [Theory]
    [InlineData(Comparator.Exactly, 97, Comparator.Below, 93, "no exact value")]
    [InlineData(Comparator.Exactly, 97, Comparator.Below, 92, "open")]
    [InlineData(Comparator.Above, 95, Comparator.Exactly, 91, "no exact value")]
    [InlineData(Comparator.Below, 95, Comparator.Exactly, 91, "nothing")]
    [InlineData(Comparator.Above, 95, Comparator.Above, 91, "no exact value")]
    public void ASaturationThatIsNotExactIsComparedOnlyAsFarAsItGoes(Comparator from, int before, Comparator to, int after, string said) =>
        Assert.Equal(said, Chart().Pass("s", "10:00").Row("o1", Concepts.Spo2, "09:58", Number(before, Unit.Percent, from))
            .Row("o2", Concepts.Spo2, "10:02", Number(after, Unit.Percent, to)).Judge().Tells(Fall));

    [Theory]
    [InlineData(50, "nothing")]
    [InlineData(49, "open")]
    [InlineData(150, "nothing")]
    [InlineData(151, "open")]
    public void AnAdultsHeartRateBelowFiftyOrAboveAHundredAndFiftyIsAnEvent(int rate, string said)
    {
        Assert.Equal(said, HeartRate(Chart(), rate).Judge("strict-ranges").Tells(Rate));
        Assert.Equal(said, HeartRate(Chart(), rate).Judge("guideline-2022").Tells(Rate));
    }

    [Theory]
    [InlineData(100, "nothing")]
    [InlineData(99, "open")]
    [InlineData(220, "nothing")]
    public void ANeonatesHeartRateBelowAHundredIsAnEvent(int rate, string said) => Assert.Equal(said, HeartRate(Neonate(), rate).Judge().Tells(Rate));

    [Theory]
    [InlineData("bradycardia", "open")]
    [InlineData("tachycardia", "open")]
    [InlineData("arrhythmia", "open")]
    [InlineData("hypotension", "nothing")]
    [InlineData("none", "nothing")]
    public void InAnyBandAChartedReactionOfRateOrRhythmIsAnEvent(string reaction, string said)
    {
        Assert.Equal(said, Chart().Pass("s", "10:00", (Concepts.SuctionReaction, Answer(reaction))).Judge().Tells(Rate));
        Assert.Equal(said, HeartRate(new ChartBuilder().Born(2018, 4, 5), 30).Pass("s2", "14:00", (Concepts.SuctionReaction, Answer(reaction))).Judge().Tells(Rate));
    }

    [Fact]
    public void InAChildNoNumberIsJudgedAndNothingIsMissing() =>
        Assert.Equal("nothing", HeartRate(new ChartBuilder().Born(2018, 4, 5), 30).Judge().Tells(Rate));

    [Theory]
    [InlineData("09:59:59", "no heart rate after the pass")]
    [InlineData("10:00:00", "open")]
    [InlineData("10:05:00", "open")]
    [InlineData("10:05:01", "no heart rate after the pass")]
    public void AHeartRateCountsFromTheStartToFiveMinutesAfter(string at, string said) =>
        Assert.Equal(said, Chart().Pass("s", "10:00").Row("h", Concepts.HeartRate, at, Number(40, Unit.PerMinute)).Judge().Tells(Rate));

    [Fact]
    public void WithoutAnAgeASharedLimitStillTellsAndTheOthersDoNot()
    {
        Assert.Equal("open", Saturation(new ChartBuilder(), 97, 92).Judge().Tells(Fall));
        Assert.Equal("no birth date", HeartRate(new ChartBuilder(), 99).Judge().Tells(Rate));
        Assert.Equal("open", HeartRate(new ChartBuilder(), 99).Judge(unknownAge: UnknownAge.StrictestBand).Tells(Rate));
    }

    private static ChartBuilder Saturation(ChartBuilder chart, int before, int after) => chart.Pass("s", "10:00")
        .Row("o1", Concepts.Spo2, "09:58", Number(before, Unit.Percent)).Row("o2", Concepts.Spo2, "10:02", Number(after, Unit.Percent));

    private static ChartBuilder HeartRate(ChartBuilder chart, int rate) => chart.Pass("s", "10:00").Row("h", Concepts.HeartRate, "10:02", Number(rate, Unit.PerMinute));

    private static ChartBuilder Neonate() => new ChartBuilder().Born(2026, 2, 20);

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5);
}
