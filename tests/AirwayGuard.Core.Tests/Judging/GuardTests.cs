using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>A site's exception from a check, by a measure that says nothing where nothing is charted; those of the shipped sets always answer.</summary>
public sealed class GuardTests
{
    private const string Check = "pass-too-long";

    private static Rule UnlessSaline(Rule rule) =>
        rule with { Unless = [new Guard(SalineGiven.Measure, new Limit(Comparison.Is, 0m, 0m, Unit.None, "true", "site", SourceStatus.CommonPractice))] };

    private static ChartBuilder LongPass(params (Concept Concept, FactValue Value)[] with) =>
        CheckWords.Adult().Pass("p", "10:00", [(Concepts.PassDuration, Number(30, Unit.Second)), .. with]);

    [Fact]
    public void An_exception_of_which_nothing_is_charted_does_not_hold() =>
        Assert.Equal("breach 30", LongPass().JudgeWith(Check, UnlessSaline).Said(Check));

    [Fact]
    public void An_exception_charted_as_absent_does_not_hold() =>
        Assert.Equal("breach 30", LongPass((Concepts.SalineInstilled, FactValue.No)).JudgeWith(Check, UnlessSaline).Said(Check));

    [Fact]
    public void An_exception_that_is_charted_holds() =>
        Assert.Equal("", LongPass((Concepts.SalineInstilled, FactValue.Yes)).JudgeWith(Check, UnlessSaline).Said(Check));
}
