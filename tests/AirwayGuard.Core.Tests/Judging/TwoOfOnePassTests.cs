using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>Two words of one pass: two reactions, techniques, amounts of saline, saturations at its start. Neither hides the other.</summary>
public sealed class TwoOfOnePassTests
{
    private const string Check = "desaturation-with-suction";

    [Theory]
    [InlineData("desaturation", "hypotension")]
    [InlineData("desaturation", "none")]
    [InlineData("hypotension", "desaturation")]
    [InlineData("none", "desaturation")]
    public void A_desaturation_is_told_beside_another_reaction_whichever_stands_first(string first, string second) =>
        Assert.Equal("breach desaturation", Adult().Pass("p", "10:00", (Concepts.SuctionReaction, Answer(first)), (Concepts.SuctionReaction, Answer(second))).SaidByBoth(Check));

    [Theory]
    [InlineData(95, 80)]
    [InlineData(80, 95)]
    public void The_lower_of_two_saturations_at_the_start_is_not_one_that_suction_brought(int first, int second) =>
        Assert.Equal("", Adult().Row("a", Concepts.Spo2, "10:00", Number(first, Unit.Percent)).Row("b", Concepts.Spo2, "10:00", Number(second, Unit.Percent))
            .Pass("p", "10:00").Row("c", Concepts.Spo2, "10:02", Number(96, Unit.Percent)).SaidByBoth(Check));

    [Theory]
    [InlineData("shallow", "deep")]
    [InlineData("deep", "shallow")]
    public void Deep_is_told_beside_shallow_whichever_stands_first(string first, string second) =>
        Assert.Equal("breach deep", Infant().Pass("p", "10:00", (Concepts.DepthTechnique, Answer(first)), (Concepts.DepthTechnique, Answer(second))).SaidByBoth("deep-technique-without-reason"));

    [Theory]
    [InlineData(0, 3)]
    [InlineData(3, 0)]
    public void The_larger_of_two_amounts_of_saline_counts(int first, int second) =>
        Assert.Equal("breach 3", Adult().Pass("p", "10:00", (Concepts.SalineInstilled, Number(first, Unit.Millilitre)), (Concepts.SalineInstilled, Number(second, Unit.Millilitre))).SaidByBoth("saline-without-reason"));

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Saline_that_was_given_is_told_beside_a_word_that_it_was_not(bool yesFirst) =>
        Assert.Equal("breach true", Adult().Pass("p", "10:00", (Concepts.SalineInstilled, yesFirst ? FactValue.Yes : FactValue.No), (Concepts.SalineInstilled, yesFirst ? FactValue.No : FactValue.Yes))
            .SaidByBoth("saline-without-reason"));
}
