using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Findings;

/// <summary>A value is told as it was charted; one that was converted with as many places as show on which side of its limit it is.</summary>
public sealed class WordingTests
{
    [Theory]
    [InlineData("26", Unit.Kilopascal, "195 mmHg")]
    [InlineData("20.1", Unit.Kilopascal, "150.8 mmHg")]
    [InlineData("150.4", Unit.MmHg, "150.4 mmHg")]
    [InlineData("150.04", Unit.MmHg, "150.04 mmHg")]
    [InlineData("220", Unit.MmHg, "220 mmHg")]
    [InlineData("300", Unit.CmH2O, "220.7 mmHg")]
    public void A_vacuum_is_told_in_the_unit_of_its_limit(string amount, Unit unit, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4)
            .Row("a", Concepts.VacuumPressure, "09:00", Number(decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture), unit)).Judge();

        var finding = found.Findings.Single(one => one.Rule.Id == "vacuum-above-ceiling");

        Assert.Equal($"Charted vacuum {told} is above the adult ceiling of 150 mmHg.", Wording.Say(finding.Rule, finding.Latest));
    }

    [Fact]
    public void A_share_is_told_in_per_cent_with_one_place()
    {
        var found = new ChartBuilder().Born(1961, 5, 4).Row("t", Concepts.TubeInnerDiameter, "08:00", Number(7, Unit.Millimetre))
            .Row("s", "10:00", null, null, null, null, null, (Concepts.SuctionPass, FactValue.Absent), (Concepts.CatheterSize, Number(14, Unit.French))).Judge();

        var finding = found.Findings.Single(one => one.Rule.Id == "catheter-too-wide");

        Assert.Contains("66.7 %", Wording.Say(finding.Rule, finding.Latest), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("95", "The pre-oxygenation charted before this adult pass does not reach 99 %, and none that does is charted within two minutes before it.")]
    [InlineData("98.9", "The pre-oxygenation charted before this adult pass does not reach 99 %, and none that does is charted within two minutes before it.")]
    [InlineData(null, "No pre-oxygenation is charted within two minutes before this adult pass.")]
    public void Pre_oxygenation_that_is_too_little_is_not_said_to_be_none(string? percent, string told)
    {
        var oxygen = percent is null ? FactValue.No : Number(decimal.Parse(percent, System.Globalization.CultureInfo.InvariantCulture), Unit.Percent);
        var within = Pass((Concepts.Preoxygenation, oxygen)).Judge();
        var apart = Pass().Row("o", Concepts.Preoxygenation, "09:59", oxygen).Judge();

        Assert.Equal(told, Said(within, "preoxygenation-missing"));
        Assert.Equal(told, Said(apart, "preoxygenation-missing"));
        Assert.Equal(percent is null, within.Findings.Single(one => one.Rule.Id == "preoxygenation-missing").Latest.Charted is null);
    }

    [Theory]
    [InlineData(true, "What is charted of what this session of suction brought could not be read.")]
    [InlineData(false, "Nothing is charted of what this session of suction brought.")]
    public void An_outcome_that_cannot_be_read_is_not_said_to_be_none(bool isCharted, string told)
    {
        var with = isCharted ? Pass((Concepts.SecretionAppearance, FactValue.Unreadable)) : Pass();
        var after = isCharted ? Pass().Row("a", Concepts.SuctionReaction, "11:00", FactValue.Unreadable) : Pass();

        Assert.Equal(told, Said(with.Judge(), "outcome-not-charted"));
        Assert.Equal(told, Said(after.Judge(), "outcome-not-charted"));
    }

    [Theory]
    [InlineData("full-line", "The order asks for full-line suction")]
    [InlineData("intermittent", "The order asks for intermittent suction")]
    [InlineData("regulated", null)]
    public void An_order_of_full_line_or_intermittent_suction_is_said_to_be_one(string mode, string? told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4).Order("o", "08:00", "active", (Concepts.RegulatorMode, Answer(mode)), (Concepts.CatheterSize, Number(10, Unit.French)));

        if (told is null)
        {
            Assert.DoesNotContain(found.Judge().Findings, one => one.Rule.Id == "order-not-machine-readable");
            return;
        }

        Assert.StartsWith(told, Said(found.Judge(), "order-not-machine-readable"), StringComparison.Ordinal);
        Assert.Equal("Not everything this order says could be read, so not everything it says was judged.", Said(
            new ChartBuilder().Born(1961, 5, 4).Order("o", "08:00", "active", (Concepts.OrderUnread, FactValue.Text)).Judge(), "order-not-machine-readable"));
    }

    [Fact]
    public void AnOrderThatSaysNothingAndOneThatSaysTwoThingsAreSaidToDoSo()
    {
        static ChartBuilder Order(params (Concept, FactValue)[] says) => new ChartBuilder().Born(1961, 5, 4).Order("o", "08:00", "active", says);

        Assert.StartsWith("The order says nothing beyond that suction is ordered", Said(Order().Judge(), "order-not-machine-readable"), StringComparison.Ordinal);
        Assert.StartsWith("The order states more than one vacuum", Said(
            Order((Concepts.OrderVacuumHigh, Number(100, Unit.MmHg)), (Concepts.OrderVacuumHigh, Number(120, Unit.MmHg))).Judge(), "order-not-machine-readable"), StringComparison.Ordinal);
        Assert.StartsWith("The order states more than one vacuum", Said(
            Order((Concepts.CatheterSize, Number(10, Unit.French)), (Concepts.CatheterSize, Number(16, Unit.French))).Judge(), "order-not-machine-readable"), StringComparison.Ordinal);
        Assert.DoesNotContain(
            Order((Concepts.CatheterSize, Number(15, Unit.French)), (Concepts.CatheterSize, Number(5, Unit.Millimetre))).Judge().Findings,
            one => one.Rule.Id == "order-not-machine-readable");
    }

    private static string Said(DerivedFindings found, string check)
    {
        var finding = found.Findings.Single(one => one.Rule.Id == check);
        return Wording.Say(finding.Rule, finding.Latest);
    }

    private static ChartBuilder Pass(params (Concept, FactValue)[] with) =>
        new ChartBuilder().Born(1961, 5, 4).Row("s", "10:00", null, null, null, null, null, [(Concepts.SuctionPass, FactValue.Absent), .. with]);
}
