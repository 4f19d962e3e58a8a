using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What has gone wrong with such charting before, one trap each.</summary>
public sealed class OutcomeTrapsTests
{
    private const string Fall = "desaturation-with-suction", Indication = "no-indication-charted", Blood = "blood-stained-secretions-trend";

    [Fact]
    public void ATextThatNobodyMatchedIsNeverFoundToBeBlood() => Assert.Equal("no readable appearance of secretions", Chart()
        .Pass("s1", "10:00", (Concepts.SecretionAppearance, FactValue.Text)).Pass("s2", "12:00", (Concepts.SecretionAppearance, FactValue.Unreadable))
        .Pass("s3", "14:00", (Concepts.SecretionAppearance, FactValue.Text)).Judge().Tells(Blood));

    [Fact]
    public void ABaselineBelowNinetyIsNoEventOfThePassUnlessItFallsFurther()
    {
        var chart = Chart().Pass("s", "10:00").Row("b", Concepts.Spo2, "09:58", Number(86, Unit.Percent));
        Assert.Equal("nothing", chart.Row("a1", Concepts.Spo2, "10:01", Number(82, Unit.Percent)).Judge().Tells(Fall));
        Assert.Equal("open", chart.Row("a2", Concepts.Spo2, "10:02", Number(81, Unit.Percent)).Judge().Tells(Fall));
    }

    [Fact]
    public void ARowChartedAfterItsFindingWasWrittenTakesItBack()
    {
        var chart = Chart().Row("s", "10:00", null, null, null, null, "column", (Concepts.SuctionPass, FactValue.Absent));
        Assert.Equal("open", chart.Judge(asOf: "13:00").Tells(Indication));

        chart.Then().Row("i", "10:00", null, null, null, null, "column", (Concepts.SuctionIndication, Answer("visible-secretions")));
        Assert.Equal("nothing", chart.Judge(asOf: "13:05").Tells(Indication));
    }

    [Fact]
    public void WhenTheEarliestMemberIsEnteredInErrorThePassIsNamedByWhatStandsAndIsStillJudged()
    {
        var chart = Chart().Row("early", "10:00", null, null, null, null, "column", (Concepts.PassDuration, Number(10, Unit.Second)))
            .Then().Row("later", "10:00", null, null, null, null, "column", (Concepts.SuctionReaction, Answer("desaturation")));
        var before = Assert.Single(chart.Judge().Findings, one => one.Rule.Id == Fall);

        var after = Assert.Single(chart.TakeBack("early").Judge().Findings, one => one.Rule.Id == Fall);

        Assert.EndsWith("early", before.Latest.Subject, StringComparison.Ordinal);
        Assert.EndsWith("later", after.Latest.Subject, StringComparison.Ordinal);
        Assert.NotEqual(before.Latest.Key, after.Latest.Key);
    }

    [Fact]
    public void WhatAnotherEncounterChartsAtTheSameInstantIsNotThisPassesIndicationOrOutcome()
    {
        var chart = new ChartBuilder().Born(1961, 4, 5).Encounter("one", "06:00").Row("d", Concepts.PassDuration, "10:00", Number(10, Unit.Second))
            .Encounter("two", "06:00").Row("i", Concepts.SuctionIndication, "10:00", Answer("specimen"))
            .Row("w", Concepts.SecretionAppearance, "10:00", Answer("white")).Judge();

        Assert.Equal(("open", "open"), (chart.Tells(Indication), chart.Tells("outcome-not-charted")));
    }

    [Fact]
    public void ACorrectedValueIsJudgedAnewAndTheFindingGoesOrComesUnderItsOwnName()
    {
        var chart = Chart().Pass("s", "10:00").Row("b", Concepts.Spo2, "09:58", Number(97, Unit.Percent)).Row("a", Concepts.Spo2, "10:02", Number(69, Unit.Percent));
        var wrong = Assert.Single(chart.Judge().Findings, one => one.Rule.Id == Fall);

        Assert.Equal("nothing", chart.Then().Row("a", Concepts.Spo2, "10:02", Number(96, Unit.Percent)).Judge().Tells(Fall));

        var again = Assert.Single(chart.Then().Row("a", Concepts.Spo2, "10:02", Number(89, Unit.Percent)).Judge().Findings, one => one.Rule.Id == Fall);
        Assert.Equal((wrong.Latest.Key, 8m), (again.Latest.Key, again.Latest.Value));
    }

    [Fact]
    public void TwoReadingsAtOneInstantDoNotHideThatNoneFollowed()
    {
        var found = new ChartBuilder().Born(1961, 4, 5).Row("a", Concepts.AirwayType, "07:00", Answer("tracheal-tube"))
            .Row("v1", Concepts.VacuumPressure, "08:00", Number(100, Unit.MmHg), device: "r1").Row("v2", Concepts.VacuumPressure, "08:00", Number(100, Unit.MmHg), device: "r2")
            .Pass("s", "18:00").Judge(asOf: "21:00");

        Assert.Equal("open", found.Tells("vacuum-reading-stale"));
    }

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5).Encounter("e", "06:00");
}
