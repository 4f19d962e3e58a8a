using AirwayGuard.Worker.Overrides;
using Xunit;
using static AirwayGuard.Worker.Tests.Overrides.Given;

namespace AirwayGuard.Worker.Tests.Overrides;

public sealed class OverrideTextTests
{
    [Fact]
    public void TheFiguresStandInATable_WithTheReasonsUnderTheirCheck()
    {
        var text = Text(Report(
        [
            .. Cards(1, 4, Vacuum, Accepted()), .. Cards(5, 5, Vacuum, Overridden("thick-secretions")), .. Cards(10, 1, Vacuum, Overridden()),
            .. Cards(11, 1, Vacuum, Overridden("x", "urn:ehr")), .. Cards(12, 1, Vacuum, Overridden("y", "urn:ehr")), .. Cards(13, 3, Vacuum), .. Cards(16, 2, Wide), Card(18, ""),
        ]));

        Assert.StartsWith(
            """
            What people did with cards given at any time

            check                 given  accepted  overridden  answered  not answered  override rate (95 % interval)
            catheter-too-wide         2         0           0         0             2  –  few
            vacuum-above-ceiling     15         4           8        12             3  66.7 % (39.1 to 86.2 %)
                  5  thick-secretions
                  2  other
                  1  none given
            all checks               17         4           8        12             5  66.7 % (39.1 to 86.2 %)

            Given at order-sign 17.
            Not judged, and in no sum above: 1 card that said what could not be judged (0 accepted, 0 overridden, 1 not answered).

            few: under 10 answered; each further card moves the rate much.
            EHRs report no card that was ignored: not answered is not accepted,
            """,
            text, StringComparison.Ordinal);
        Assert.EndsWith("read the comments before changing a limit.", text.TrimEnd(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void UnderTenAnsweredIsFew(int answered, bool few)
    {
        var text = Text(Report([.. Cards(1, answered, Vacuum, Accepted()), .. Cards(50, 20, Vacuum)]));

        Assert.Equal(few, text.Contains(" %)  few\n", StringComparison.Ordinal));
        Assert.Equal(few, text.Contains("few: under 10 answered", StringComparison.Ordinal));
    }

    [Fact]
    public void OfNoCardThereIsNoTable_YetItSaysWhatFiguresDoNotSay()
    {
        var text = Text(Report([]));

        Assert.Contains("No card of a check was given.", text, StringComparison.Ordinal);
        Assert.Contains(OverrideText.Caution, text, StringComparison.Ordinal);
        Assert.DoesNotContain("override rate (", text, StringComparison.Ordinal);
        Assert.DoesNotContain("few", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, true, "given from 2026-03-02T12:00:00Z and before 2026-03-03T12:00:00Z")]
    [InlineData(true, false, "given from 2026-03-02T12:00:00Z\n")]
    [InlineData(false, true, "given before 2026-03-03T12:00:00Z")]
    [InlineData(false, false, "given at any time")]
    public void ItSaysOfWhatTime(bool since, bool until, string said) =>
        Assert.Contains(said, Text(OverrideFigures.Of([], since ? Noon.ToOffset(TimeSpan.FromHours(1)) : null, until ? Noon.AddDays(1) : null, false)), StringComparison.Ordinal);

    [Fact]
    public void CommentsStandOneALine_AndCannotMoveTheCursor()
    {
        var text = Text(Report(
            [Card(1, Vacuum, Overridden("emergency", comment: "first\n\u001B[2Jsecond \u202E", minute: 1), Accepted(minute: 2)), Card(2, "", Accepted(comment: "fine"))], withComments: true));

        Assert.Contains(
            """
            Comments (patient data):
              vacuum-above-ceiling  2026-03-02T12:01:00Z  overridden, emergency  card 00000000-0000-4000-8000-000000000001  (a later report counts)
                first\u000A\u001B[2Jsecond \u202E
              not judged  2026-03-02T12:01:00Z  accepted, none given  card 00000000-0000-4000-8000-000000000002
                fine

            """,
            text, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001B', text);
    }

    [Fact]
    public void WhereNobodyWroteACommentItSaysSo() =>
        Assert.Contains("Nobody wrote a comment.", Text(Report([Card(1, Vacuum, Overridden("emergency"))], withComments: true)), StringComparison.Ordinal);

    [Fact]
    public void CommentsStandNowhereWithoutBeingAskedFor()
    {
        var report = Report([Card(1, Vacuum, Overridden("emergency", comment: "in their words")), Card(2, "", Accepted(comment: "in their words"))]);

        Assert.All([Text(report), JsonText(report), Csv(report)], output => Assert.DoesNotContain("in their words", output, StringComparison.Ordinal));
        Assert.All([Text(report), JsonText(report)], output => Assert.DoesNotContain("omments\"", output, StringComparison.Ordinal));
    }
}
