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
}
