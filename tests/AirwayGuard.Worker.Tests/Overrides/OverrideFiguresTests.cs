using AirwayGuard.Core.Ports;
using AirwayGuard.Worker.Overrides;
using Xunit;
using static AirwayGuard.Worker.Tests.Overrides.Given;

namespace AirwayGuard.Worker.Tests.Overrides;

public sealed class OverrideFiguresTests
{
    private const string Ours = "https://airwayguard.example.org/fhir/CodeSystem/override-reason";

    [Fact]
    public void EachCheckIsCountedByItself_InTheOrderOfItsId_AndAllTogether()
    {
        var report = Report([Card(1, Vacuum, Accepted()), Card(2, Vacuum, Overridden()), Card(3, Vacuum), Card(4, Wide, Overridden())]);

        Assert.Equal([(Wide, new CardCounts(1, 0, 1)), (Vacuum, new CardCounts(3, 1, 1))], report.Checks.Select(check => (check.Check, check.Counts)));
        Assert.Equal(new CardCounts(4, 1, 2), report.All);
        Assert.Equal((3, 1, 2d / 3), (report.All.Answered, report.All.NotAnswered, report.All.OverrideRate));
    }

    [Fact]
    public void WithNothingAnsweredThereIsNoRate()
    {
        var counts = Report([Card(1, Vacuum)]).Checks.Single().Counts;

        Assert.Equal((0, 1, true), (counts.Answered, counts.NotAnswered, counts.IsFew));
        Assert.Null(counts.OverrideRate);
        Assert.Null(counts.Interval);
    }

    [Fact]
    public void ACardCountsByItsLatestReport_WhateverOrderTheyStandIn()
    {
        var (first, last) = (Overridden("emergency", minute: 1), Accepted(minute: 2));

        Assert.Equal(new CardCounts(2, 2, 0), Report([Card(1, Vacuum, first, last), Card(2, Vacuum, last, first)]).All);
        Assert.Empty(Report([Card(1, Vacuum, first, last)]).Checks.Single().Reasons);
    }

    // The sender's clock may be wrong by years.
    [Fact]
    public void AReportDatedAheadOfWhenItCame_DoesNotHideThoseThatComeAfterIt()
    {
        var (ahead, after) = (Accepted(minute: 40_000_000) with { KeptAt = Noon.AddMinutes(1) }, Overridden("emergency", minute: 5) with { KeptAt = Noon.AddMinutes(5) });

        Assert.Equal(new CardCounts(1, 0, 1), Report([Card(1, Vacuum, ahead, after)]).All);
    }

    [Fact]
    public void ReportedBothWaysAtOneInstant_ItCountsAsOverridden()
    {
        Assert.Equal(new CardCounts(1, 0, 1), Report([Card(1, Vacuum, Overridden(), Accepted())]).All);
        Assert.Equal(new CardCounts(1, 0, 1), Report([Card(1, Vacuum, Accepted(), Overridden())]).All);
    }

    [Fact]
    public void ACardThatSaysWhatCouldNotBeJudgedStandsApart()
    {
        var report = Report([Card(1, "", Overridden("emergency")), Card(2, ""), Card(3, Vacuum, Accepted())]);

        Assert.Equal(Vacuum, Assert.Single(report.Checks).Check);
        Assert.Equal((new CardCounts(1, 1, 0), new CardCounts(2, 0, 1)), (report.All, report.NotJudged));
        Assert.Equal([new HookCount("order-sign", 1)], report.Hooks);
    }

    [Fact]
    public void ReasonsComeMostFrequentFirst_TiesByCode()
    {
        var report = Report(
        [
            .. Cards(1, 1, Vacuum, Overridden("emergency")), .. Cards(2, 2, Vacuum, Overridden("thick-secretions")), .. Cards(4, 1, Vacuum, Overridden("bleeding-risk")),
            .. Cards(5, 3, Vacuum, Overridden()), .. Cards(8, 1, Vacuum, Overridden("b", "https://ehr.example/reasons")), Card(9, Vacuum, Accepted()),
        ]);

        Assert.Equal(
            [("none given", 3), ("thick-secretions", 2), ("bleeding-risk", 1), ("emergency", 1), ("https://ehr.example/reasons|b", 1)],
            report.Checks.Single().Reasons.Select(reason => (reason.Reason.Full, reason.Count)));
    }

    [Theory]
    [InlineData(Ours, "emergency", "emergency", "emergency")]
    [InlineData("https://ehr.example/reasons", "Emergency.1_a", "https://ehr.example/reasons|Emergency.1_a", "other")]
    [InlineData("urn:oid:1.2.3", "emergency", "urn:oid:1.2.3|emergency", "other")]
    [InlineData("", "emergency", "|emergency", "other")]
    [InlineData("", "", "none given", "none given")]
    [InlineData(Ours, "", "none given", "none given")]
    public void AReasonIsOursByItsSystemOnly(string system, string code, string full, string brief) =>
        Assert.Equal(new GivenReason(brief, full), GivenReason.Of(Overridden(code, system)));

    // Those words are patient data, and may stand nowhere that comments may not.
    [Theory]
    [InlineData(Ours, "She was blue")]
    [InlineData("https://ehr.example/reasons", "She was blue")]
    [InlineData("https://ehr.example/reasons", "blue\nagain")]
    [InlineData("she was blue", "x")]
    [InlineData("blue", "x")]
    [InlineData("/she/was/blue", "x")]
    [InlineData("urn:she was blue", "x")]
    public void WordsWhereACodeBelongsAreShownNowhere(string system, string code)
    {
        var report = Report([Card(1, Vacuum, Overridden(code, system))]);

        Assert.Equal(new GivenReason("other", "other"), report.Checks.Single().Reasons.Single().Reason);
        Assert.All([Text(report), JsonText(report), Csv(report)], output => Assert.DoesNotContain("blue", output, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(64, 255, true)]
    [InlineData(65, 255, false)]
    [InlineData(64, 256, false)]
    public void WhatIsLongerThanACodeOrAnAddressIsNone(int code, int system, bool shown) =>
        Assert.Equal(shown, GivenReason.Of(Overridden(new string('x', code), "urn:".PadRight(system, 'y'))).Full != "other");

    [Fact]
    public void CardsAreCountedByTheHookThatAskedToo() => Assert.Equal(
        [new HookCount("order-sign", 2), new HookCount("patient-view", 1)],
        Report([Card(1, Vacuum) with { Hook = "patient-view" }, Card(2, Vacuum), Card(3, Wide)]).Hooks);

    [Fact]
    public void CommentsAreHeldOnlyWhereTheyAreAskedFor()
    {
        CardHistory[] cards = [Card(1, Vacuum, Overridden("emergency", comment: "in their words"))];

        Assert.Null(Report(cards).Comments);
        Assert.Equal("in their words", Assert.Single(Report(cards, withComments: true).Comments!.Value).Comment);
    }

    [Fact]
    public void EveryCommentIsTold_ByCheckAndTime_AndWhetherALaterReportCountsInstead()
    {
        var report = Report(
            [
                Card(1, "", Overridden(comment: "d")), Card(2, Vacuum, Overridden(comment: "b", minute: 1), Accepted(minute: 3, comment: "c")),
                Card(3, Wide, Overridden(comment: "a", minute: 9)), Card(4, Wide, Accepted()),
            ],
            withComments: true);

        Assert.Equal(
            [(3, Wide, CardOutcome.Overridden, "a", false), (2, Vacuum, CardOutcome.Overridden, "b", true), (2, Vacuum, CardOutcome.Accepted, "c", false), (1, "", CardOutcome.Overridden, "d", false)],
            report.Comments!.Value.Select(one => (int.Parse(one.Card.ToString()[24..], System.Globalization.CultureInfo.InvariantCulture), one.Check, one.Outcome, one.Comment, one.IsSuperseded)));
        Assert.DoesNotContain("in their words", Report([Card(1, Vacuum, Overridden(comment: "in their words"))], withComments: true).Comments!.Value.Single().ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void TheOrderInWhichCardsAreReadChangesNothing()
    {
        CardHistory[] cards =
        [
            Card(1, Vacuum, Overridden("emergency", comment: "x")), Card(2, Wide, Overridden("bleeding-risk")), Card(3, Wide, Overridden("b", "urn:b", "y")),
            Card(4, Wide, Overridden("a", "urn:a", "z")), Card(5, ""), Card(6, Vacuum) with { Hook = "patient-view" },
        ];

        var (ahead, back) = (Report(cards, withComments: true), Report(cards.Reverse(), withComments: true));

        Assert.Equal((Text(ahead), JsonText(ahead), Csv(ahead)), (Text(back), JsonText(back), Csv(back)));
    }
}
