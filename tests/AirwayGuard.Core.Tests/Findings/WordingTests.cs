using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Tests.Judging;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Findings;

/// <summary>A value is told as it was charted; one that was converted with as many places as show on which side of its limit it is.</summary>
public sealed class WordingTests
{
    [Fact]
    public void A_charted_reaction_is_told_as_one_and_not_held_against_a_mark()
    {
        var finding = CheckWords.Adult().Pass("s", "10:00", (Concepts.SuctionReaction, ChartBuilder.Answer("bradycardia"))).Judge().Only("heart-rate-event-with-suction");

        Assert.Equal("Bradycardia is charted as a reaction to this pass.", Wording.Say(finding.Rule, finding.Latest));
    }

    [Fact]
    public void A_limit_that_a_circumstance_set_is_not_told_as_that_of_the_age_alone()
    {
        var finding = CheckWords.Adult().Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Yes)
            .Row("v", Concepts.VacuumPressure, "10:00", ChartBuilder.Number(130, Unit.MmHg)).Judge().Only("vacuum-above-ceiling");

        Assert.Equal("Charted vacuum 130 mmHg is above the adult ceiling of 120 mmHg while intracranial pressure is monitored.", Wording.Say(finding.Rule, finding.Latest));
    }

    [Theory]
    [InlineData("26", Unit.Kilopascal, "195 mmHg")]
    [InlineData("20.1", Unit.Kilopascal, "150.8 mmHg")]
    [InlineData("150.4", Unit.MmHg, "150.4 mmHg")]
    [InlineData("150.04", Unit.MmHg, "150.04 mmHg")]
    [InlineData("150.0001", Unit.MmHg, "150.0001 mmHg")] // else it would read as lying on its limit
    [InlineData("220", Unit.MmHg, "220 mmHg")]
    [InlineData("300", Unit.CmH2O, "220.7 mmHg")]
    public void A_vacuum_is_told_in_the_unit_of_its_limit(string amount, Unit unit, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4)
            .Row("a", Concepts.VacuumPressure, "09:00", Number(decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture), unit)).Judge();

        var finding = found.Findings.Single(one => one.Rule.Id == "vacuum-above-ceiling");

        Assert.Equal($"Charted vacuum {told} is above the adult ceiling of 150 mmHg.", Wording.Say(finding.Rule, finding.Latest));
    }

    [Theory]
    [InlineData("150", Comparator.Above, "over 150 mmHg")]
    [InlineData("160", Comparator.AtLeast, "160 mmHg or more")]
    [InlineData("150", Comparator.AtLeast, "150 mmHg or more (which counts as above 150 mmHg)")]
    public void A_vacuum_charted_as_a_bound_is_told_as_one(string amount, Comparator comparator, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4)
            .Row("a", Concepts.VacuumPressure, "09:00", Number(Of(amount), Unit.MmHg, comparator)).Judge();

        Assert.Equal($"Charted vacuum {told} is above the adult ceiling of 150 mmHg.", Said(found, "vacuum-above-ceiling"));
    }

    [Theory]
    [InlineData("20", Comparator.Below, "under 20 cmH2O")]
    [InlineData("30", Comparator.Above, "over 30 cmH2O")]
    [InlineData("30", Comparator.AtLeast, "30 cmH2O or more (which counts as above 30 cmH2O)")]
    [InlineData("18", Comparator.AtMost, "up to 18 cmH2O")]
    [InlineData("35", Comparator.Exactly, "35 cmH2O")]
    public void A_cuff_pressure_charted_as_a_bound_is_told_as_one(string amount, Comparator comparator, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4).Row("t", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
            .Row("a", Concepts.CuffPressure, "09:00", Number(Of(amount), Unit.CmH2O, comparator)).Judge();

        Assert.Equal($"Charted cuff pressure {told} is outside 20 cmH2O to 30 cmH2O.", Said(found, "cuff-pressure-out-of-range"));
    }

    [Theory]
    [InlineData("150", Comparator.AtLeast, "150 mmHg or more")]
    [InlineData("200", Comparator.Exactly, "200 mmHg")]
    [InlineData("200", Comparator.AtMost, "up to 200 mmHg")]
    [InlineData("200", Comparator.Below, "up to just under 200 mmHg")]
    public void An_order_of_a_bound_is_told_as_one(string amount, Comparator comparator, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4)
            .Order("o", "08:00", "active", (Concepts.OrderVacuumHigh, Number(Of(amount), Unit.MmHg, comparator))).Judge();

        Assert.Equal($"The order allows a vacuum of {told}, above the adult ceiling of 150 mmHg.", Said(found, "ordered-vacuum-above-ceiling"));
    }

    [Theory]
    [InlineData("26.6", Unit.Kilopascal, "199.5 mmHg (converted, which counts as 200 mmHg)")]
    [InlineData("26.7", Unit.Kilopascal, "200.3 mmHg")]
    [InlineData("200", Unit.MmHg, "200 mmHg")]
    public void A_vacuum_that_counts_as_its_limit_once_converted_is_said_to(string amount, Unit unit, string told)
    {
        var found = new ChartBuilder().Born(1961, 5, 4).Row("a", Concepts.VacuumPressure, "09:00", Number(Of(amount), unit)).Judge("guideline-2022");

        Assert.Contains(told + " is not", Said(found, "vacuum-above-ceiling"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_number_over_the_ceiling_in_every_unit_is_not_said_to_be_compared_with_none()
    {
        var found = new ChartBuilder().Born(1961, 5, 4).Row("a", Concepts.VacuumPressure, "09:00", Number(300, Unit.None)).Judge();

        Assert.Contains("above the adult ceiling", Said(found, "vacuum-above-ceiling"), StringComparison.Ordinal);
        Assert.Contains("without a unit it counts as over one only where it would be in every unit", Said(found, "vacuum-unit-doubtful"), StringComparison.Ordinal);
    }

    private static decimal Of(string amount) => decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture);

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
        Assert.StartsWith("The parts of the order say different things", Said(
            Order((Concepts.OrderVacuumHigh, Number(100, Unit.MmHg)), (Concepts.OrderVacuumHigh, Number(120, Unit.MmHg))).Judge(), "order-not-machine-readable"), StringComparison.Ordinal);
        Assert.StartsWith("The parts of the order say different things", Said(
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
