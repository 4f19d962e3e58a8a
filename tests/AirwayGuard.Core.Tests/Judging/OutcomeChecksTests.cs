using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>no-indication-charted, airway-assessment-overdue, suctioned-too-often and outcome-not-charted.</summary>
public sealed class OutcomeChecksTests
{
    private static readonly string[] Sets = ["strict-ranges", "guideline-2022"];

    [Fact]
    public void APassWithoutAnIndicationIsFoundInBothSetsAndAtEveryAge()
    {
        foreach (var set in Sets)
        {
            Assert.Equal("open", Chart().Pass("s", "10:00").Judge(set).Tells("no-indication-charted"));
            Assert.Equal("open", new ChartBuilder().Pass("s", "10:00").Judge(set).Tells("no-indication-charted"));
        }
    }

    [Fact]
    public void ACodedIndicationOrOneInWordsIsOne()
    {
        Assert.Equal("nothing", Chart().Pass("s", "10:00", (Concepts.SuctionIndication, Answer("visible-secretions"))).Judge().Tells("no-indication-charted"));
        Assert.Equal("nothing", Chart().Pass("s", "10:00", (Concepts.SuctionIndication, FactValue.Text)).Judge().Tells("no-indication-charted"));
    }

    [Theory]
    [InlineData("11:59", "nothing")]
    [InlineData("12:00", "open")]
    public void AnIndicationHasTwoHoursToBeCharted(string asOf, string said) =>
        Assert.Equal(said, Chart().Pass("s", "10:00").Judge(asOf: asOf).Tells("no-indication-charted"));

    [Fact]
    public void AnIndicationChartedAsNotDoneIsNotWaitedFor() => Assert.Equal(
        "open", Chart().Pass("s", "10:00", (Concepts.SuctionIndication, FactValue.NotPerformed)).Judge(asOf: "10:01").Tells("no-indication-charted"));

    [Fact]
    public void AnIndicationChartedWithOnePassOfASessionHoldsForItsOthersAlsoForEarlierOnes()
    {
        var chart = Chart().Pass("s1", "10:00").Pass("s2", "10:03", (Concepts.SuctionIndication, Answer("coarse-breath-sounds"))).Pass("s3", "10:08");
        Assert.Equal("nothing", chart.Judge().Tells("no-indication-charted"));

        // More than five minutes later begins another session.
        Assert.Equal("open", chart.Pass("s4", "10:14").Judge().Tells("no-indication-charted"));
    }

    [Fact]
    public void AnIndicationChartedOtherwiseWithAPassIsNotBorrowed() => Assert.Equal("open", Chart()
        .Pass("s1", "10:00", (Concepts.SuctionIndication, Answer("specimen")))
        .Pass("s2", "10:03", (Concepts.SuctionIndication, FactValue.NotPerformed)).Judge().Tells("no-indication-charted"));

    // In place since 08:00: due at 10:00.
    [Theory]
    [InlineData("10:00", "nothing")]
    [InlineData("10:01", "open")]
    public void ATracheostomyNotAssessedForMoreThanTwoHoursIsFoundOnce(string asOf, string said)
    {
        foreach (var set in Sets)
        {
            Assert.Equal(said, Tracheostomy().Judge(set, asOf).Tells("airway-assessment-overdue"));
        }
    }

    [Fact]
    public void ItIsFoundOnceUntilTheNextAssessmentWhichClearsIt()
    {
        var found = Tracheostomy().Row("x", Concepts.AirwayAssessed, "15:00", FactValue.Yes).Judge(asOf: "17:00");
        var one = Assert.Single(found.Findings, finding => finding.Rule.Id == "airway-assessment-overdue");
        Assert.Equal((At("10:00"), At("15:00"), FindingState.Cleared, 1), (one.First.At, one.EndedAt, one.State, one.Occurrences.Length));

        var again = Tracheostomy().Row("x", Concepts.AirwayAssessed, "15:00", FactValue.Yes).Judge(asOf: "17:01");
        Assert.Equal("cleared, open", again.Tells("airway-assessment-overdue"));
    }

    [Fact]
    public void APassWithAnIndicationIsAnAssessmentAndOneWithoutIsNone()
    {
        var with = Tracheostomy().Pass("s", "09:30", (Concepts.SuctionIndication, Answer("visible-secretions")));
        Assert.Equal("nothing", with.Judge(asOf: "11:30").Tells("airway-assessment-overdue"));
        Assert.Equal("open", with.Judge(asOf: "11:31").Tells("airway-assessment-overdue"));
        Assert.Equal("open", Tracheostomy().Pass("s", "09:30").Judge(asOf: "11:30").Tells("airway-assessment-overdue"));
    }

    [Fact]
    public void AnAssessmentAndAPassAtOneInstantAreOneStart()
    {
        var found = Tracheostomy().Row("x", Concepts.AirwayAssessed, "09:30", FactValue.Yes)
            .Pass("s", "09:30", (Concepts.SuctionIndication, Answer("visible-secretions"))).Judge(asOf: "12:00");

        Assert.Equal([At("11:30")], found.Findings.Where(one => one.Rule.Id == "airway-assessment-overdue").Select(one => one.First.At));
    }

    [Fact]
    public void AssessedNoIsNoAssessment() => Assert.Equal(
        "open", Tracheostomy().Row("x", Concepts.AirwayAssessed, "09:30", FactValue.No).Judge(asOf: "11:00").Tells("airway-assessment-overdue"));

    [Fact]
    public void ATrachealTubeIsNotJudgedByTheShippedRule() => Assert.Equal("nothing", Chart()
        .Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube")).Judge(asOf: "20:00").Tells("airway-assessment-overdue"));

    [Fact]
    public void ATracheostomyThatFollowsATubeIsOverdueFromItsOwnStart()
    {
        var found = Chart().Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
            .Row("b", Concepts.AirwayType, "13:00", Answer("tracheostomy-tube")).Judge(asOf: "13:30");

        Assert.Equal(At("13:00"), Assert.Single(found.Findings, one => one.Rule.Id == "airway-assessment-overdue").First.At);
    }

    // It may be a tracheostomy: what is missing is never a pass.
    [Theory]
    [InlineData("11:59", "nothing")] // waits two hours for the kind, after two in which it was not due
    [InlineData("12:00", "no kind of airway")]
    public void OfAnAirwayWithoutAKindNobodyCanTell(string asOf, string said) => Assert.Equal(said, Chart()
        .Row("d", Concepts.TubeInnerDiameter, "08:00", Number(8, Unit.Millimetre)).Judge(asOf: asOf).Tells("airway-assessment-overdue"));

    [Fact]
    public void ATracheostomyTakenOutBeforeItFellDueIsNotOverdue() => Assert.Equal("nothing", Tracheostomy()
        .Row("out", Concepts.AirwayType, "10:00", Answer("none")).Judge(asOf: "20:00").Tells("airway-assessment-overdue"));

    [Theory]
    [InlineData(6, 4, "nothing")]
    [InlineData(7, 3, "open")]
    [InlineData(7, 4, "nothing")] // the first lies exactly 24 hours before the last and is not within them
    public void MoreThanSixSessionsInADayAreFoundInAdultsAndShipSilent(int sessions, int hoursApart, string said)
    {
        var chart = Chart();
        for (var i = 0; i < sessions; i++)
        {
            chart.Pass("s" + i, hoursApart * i < 24 ? $"{hoursApart * i:00}:00" : "2 00:00");
        }

        var found = chart.Judge();
        Assert.Equal(said, found.Tells("suctioned-too-often"));
        Assert.All(found.Findings.Where(one => one.Rule.Id == "suctioned-too-often"), one => Assert.Equal((Mode.Silent, 7m), (one.Rule.Mode, one.Latest.Value)));
    }

    [Fact]
    public void PassesOfOneSessionCountOnceAndAChildIsNotJudged()
    {
        var (one, child) = (Chart(), new ChartBuilder().Born(2018, 4, 5));
        for (var i = 0; i < 8; i++)
        {
            one.Pass("s" + i, $"10:{i * 4:00}");
            child.Pass("s" + i, $"{i:00}:00");
        }

        Assert.Equal("nothing", one.Judge().Tells("suctioned-too-often"));
        Assert.Equal("nothing", child.Judge().Tells("suctioned-too-often"));
    }

    // The last pass ends at 10:00:10.
    [Theory]
    [InlineData("09:59:30", "open")] // charted between two passes, with neither
    [InlineData("10:00:10", "nothing")]
    [InlineData("12:00:10", "nothing")]
    [InlineData("12:00:11", "open")]
    public void AnOutcomeCountsUntilTwoHoursAfterTheLastPass(string at, string said)
    {
        foreach (var set in Sets)
        {
            Assert.Equal(said, Chart().Procedure("s1", "09:59:00", "09:59:10").Procedure("s2", "09:59:55", "10:00:10")
                .Row("x", Concepts.AirwayAssessed, at, FactValue.Yes).Judge(set).Tells("outcome-not-charted"));
        }
    }

    [Fact]
    public void AnyOfSecretionsReactionOrAssessmentWithThePassIsAnOutcome()
    {
        (Concept, FactValue)[] outcomes =
        [
            (Concepts.SecretionAmount, Answer("none")), (Concepts.SecretionAppearance, Answer("clear")), (Concepts.SecretionConsistency, Answer("thin")),
            (Concepts.SuctionReaction, Answer("none")), (Concepts.AirwayAssessed, FactValue.Yes),
        ];
        Assert.All(outcomes, outcome => Assert.Equal("nothing", Chart().Pass("s", "10:00", outcome).Judge().Tells("outcome-not-charted")));
        Assert.Equal("open", Chart().Pass("s", "10:00", (Concepts.AirwayAssessed, FactValue.No)).Judge().Tells("outcome-not-charted"));
    }

    [Theory]
    [InlineData("12:02", "nothing")]
    [InlineData("12:03", "open")]
    public void AnOutcomeIsWaitedForFromTheLastPassOfTheSession(string asOf, string said) =>
        Assert.Equal(said, Chart().Pass("s1", "10:00").Pass("s2", "10:03").Judge(asOf: asOf).Tells("outcome-not-charted"));

    [Fact]
    public void WithoutAnEndTheTwoHoursRunFromTheChartedDuration() => Assert.Equal("nothing", Chart()
        .Pass("s", "10:00", (Concepts.PassDuration, Number(10, Unit.Second)))
        .Row("x", Concepts.AirwayAssessed, "12:00:10", FactValue.Yes).Judge().Tells("outcome-not-charted"));

    private static ChartBuilder Tracheostomy() => Chart().Row("a", Concepts.AirwayType, "08:00", Answer("tracheostomy-tube"));

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5);
}
