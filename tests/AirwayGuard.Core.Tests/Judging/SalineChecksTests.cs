using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.Core.Tests.Judging.CheckWords;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>saline-dose-high and saline-without-reason.</summary>
public sealed class SalineChecksTests
{
    private const string Dose = "saline-dose-high", Reason = "saline-without-reason";

    // 0.1 to 0.2 mL/kg: RCH Melbourne.
    [Theory]
    [InlineData(0.3, 1.5, Unit.Kilogram, "")]
    [InlineData(0.31, 1.5, Unit.Kilogram, "breach 0.207")]
    [InlineData(0.3, 1500, Unit.Gram, "")]
    [InlineData(0.31, 1500, Unit.Gram, "breach 0.207")]
    public void A_neonates_saline_is_judged_by_weight(double millilitres, double weight, Unit unit, string expected) => Assert.Equal(
        expected, Neonate().Row("w", Concepts.BodyWeight, "06:00", Number((decimal)weight, unit))
            .Pass("s", "10:00", (Concepts.SalineInstilled, Number((decimal)millilitres, Unit.Millilitre))).SaidByBoth(Dose));

    [Theory]
    [InlineData("3 10:00", "breach 0.333")] // 48 hours after the weight
    [InlineData("3 10:01", "open BodyWeight")]
    public void A_neonates_weight_holds_48_hours(string at, string expected) => Assert.Equal(
        expected, Neonate().Row("w", Concepts.BodyWeight, "10:00", Number(1.5m, Unit.Kilogram))
            .Pass("s", at, (Concepts.SalineInstilled, Number(0.5m, Unit.Millilitre))).SaidByBoth(Dose));

    [Fact]
    public void Without_weight_or_volume_the_dose_cannot_be_told()
    {
        Assert.Equal("open BodyWeight", Neonate().Pass("s", "10:00", (Concepts.SalineInstilled, Number(0.5m, Unit.Millilitre))).SaidByBoth(Dose));
        Assert.Equal("open SalineVolume", Neonate().Row("w", Concepts.BodyWeight, "06:00", Number(1.5m, Unit.Kilogram))
            .Pass("s", "10:00", (Concepts.SalineInstilled, FactValue.Yes)).SaidByBoth(Dose));
    }

    [Fact]
    public void A_weight_of_next_to_nothing_is_no_weight() => Assert.Equal("open BodyWeight", Neonate()
        .Row("w", Concepts.BodyWeight, "06:00", Number(0.000000000000000001m, Unit.Kilogram))
        .Pass("s", "10:00", (Concepts.SalineInstilled, Number(9_000_000_000_000_000_000m, Unit.Millilitre))).SaidByBoth(Dose));

    [Fact]
    public void No_saline_and_other_ages_are_not_asked_for_a_dose()
    {
        Assert.Equal("", Neonate().Pass("s", "10:00", (Concepts.SalineInstilled, FactValue.No)).SaidByBoth(Dose));
        Assert.Equal("", Neonate().Pass("s", "10:00", (Concepts.SalineInstilled, Number(0m, Unit.Millilitre))).SaidByBoth(Dose));
        Assert.Equal("", Infant().Pass("s", "10:00", (Concepts.SalineInstilled, Number(5m, Unit.Millilitre))).SaidByBoth(Dose));
    }

    [Fact]
    public void An_order_for_too_much_saline_is_named()
    {
        var chart = Neonate().Row("w", Concepts.BodyWeight, "08:00", Number(2m, Unit.Kilogram));

        Assert.Equal("breach 0.5", chart.Order("a", "09:00", "active", (Concepts.SalineInstilled, Number(1m, Unit.Millilitre, Comparator.AtMost))).SaidByBoth(Dose));
    }

    [Theory]
    [InlineData("order-specific")]
    [InlineData("emergency")]
    [InlineData("suspected-obstruction")]
    [InlineData("other-with-text")]
    public void Any_charted_reason_lets_saline_pass(string reason) => Assert.Equal("", Adult()
        .Pass("s", "10:00", (Concepts.SalineInstilled, Number(5, Unit.Millilitre)), (Concepts.AllowanceReason, Answer(reason))).SaidByBoth(Reason));

    [Fact]
    public void A_reason_charted_with_one_pass_holds_for_its_session_and_no_other()
    {
        var chart = Adult().Pass("s1", "10:00", (Concepts.SalineInstilled, FactValue.Yes)).Pass("s2", "10:04", (Concepts.AllowanceReason, Answer("thick-secretions")));
        Assert.Equal("", chart.SaidByBoth(Reason));

        Assert.Equal("breach true", chart.Pass("s3", "11:00", (Concepts.SalineInstilled, FactValue.Yes)).SaidByBoth(Reason));
    }

    [Theory]
    [InlineData(0, "")]
    [InlineData(0.1, "breach 0.1")]
    public void Saline_above_nothing_needs_a_reason(double millilitres, string expected) => Assert.Equal(
        expected, Adult().Pass("s", "10:00", (Concepts.SalineInstilled, Number((decimal)millilitres, Unit.Millilitre))).SaidByBoth(Reason));

    [Fact]
    public void An_order_for_saline_needs_a_reason_of_its_own()
    {
        Assert.Equal("breach true", Adult().Order("a", "09:00", "active", (Concepts.SalineInstilled, FactValue.Yes)).SaidByBoth(Reason));
        Assert.Equal("", Adult().Order("a", "09:00", "active", (Concepts.SalineInstilled, FactValue.Yes), (Concepts.AllowanceReason, Answer("thick-secretions"))).SaidByBoth(Reason));
    }

    // A reason charted within a day ends it, also of an order and also as thick secretions.
    [Theory]
    [InlineData("10:00", "cleared")]
    [InlineData("2 09:00", "cleared")]
    [InlineData("2 09:00:01", "open")]
    public void Thick_secretions_charted_within_a_day_end_an_orders_finding(string at, string expected)
    {
        var found = Adult().Order("a", "09:00", "active", (Concepts.SalineInstilled, FactValue.Yes))
            .Row("t", Concepts.SecretionConsistency, at, Answer("thick")).Judge();

        Assert.Equal(expected, found.Findings.Single(finding => finding.Rule.Id == Reason).State.ToString().ToLowerInvariant());
    }
}
