using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>ordered-vacuum-above-ceiling: what an order allows, judged as a number.</summary>
public sealed class OrderedVacuumTests
{
    private const string Check = "ordered-vacuum-above-ceiling";

    // Ceilings as of vacuum-above-ceiling: adult 150 NSW ACI 2014, child 120 from memory, infant 100 AARC 2004, neonate 80 Ireton 2007; 120 and 200 AARC 2022.
    [Theory]
    [InlineData("strict-ranges", 1961, 150, "mm[Hg]", false)]
    [InlineData("strict-ranges", 1961, 150.4, "mm[Hg]", true)]
    [InlineData("strict-ranges", 1961, 20, "kPa", false)]
    [InlineData("strict-ranges", 1961, 20.1, "kPa", true)]
    [InlineData("strict-ranges", 1961, -160, "mm[Hg]", true)]
    [InlineData("strict-ranges", 2018, 120, "mm[Hg]", false)]
    [InlineData("strict-ranges", 2018, 121, "mm[Hg]", true)]
    [InlineData("strict-ranges", 2025, 100, "mm[Hg]", false)]
    [InlineData("strict-ranges", 2025, 101, "mm[Hg]", true)]
    [InlineData("guideline-2022", 1961, 199, "mm[Hg]", false)]
    [InlineData("guideline-2022", 1961, 200, "mm[Hg]", true)]
    [InlineData("guideline-2022", 2018, 119, "mm[Hg]", false)]
    [InlineData("guideline-2022", 2018, 16, "kPa", true)] // 120.010 mm[Hg] is not below 120
    public void An_order_breaches_only_over_the_ceiling_of_its_band(string rules, int born, double amount, string unit, bool breaches)
    {
        var found = Ordered(born, Number((decimal)amount, Units.FromUcum(unit))).Judge(rules);

        Assert.Equal(breaches, found.Findings.Any(finding => finding.Rule.Id == Check));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Check);
    }

    // "Less than 200" allows up to 200; that it leaves 200 itself out counts only against 200.
    [Theory]
    [InlineData("strict-ranges", Comparator.Below, 200, true)]
    [InlineData("strict-ranges", Comparator.Below, 151, true)]
    [InlineData("strict-ranges", Comparator.Below, 150, false)]
    [InlineData("strict-ranges", Comparator.AtMost, 200, true)]
    [InlineData("strict-ranges", Comparator.AtMost, 150, false)]
    [InlineData("guideline-2022", Comparator.Below, 200, false)]
    [InlineData("guideline-2022", Comparator.AtMost, 200, true)]
    [InlineData("guideline-2022", Comparator.Below, 201, true)]
    public void What_an_order_allows_up_to_is_judged_as_that_number(string rules, Comparator comparator, int amount, bool breaches)
    {
        var found = Ordered(1961, Number(amount, Unit.MmHg, comparator)).Judge(rules);

        Assert.Equal(breaches, found.Findings.Any(finding => finding.Rule.Id == Check));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Check);
    }

    [Fact]
    public void The_deeper_of_several_values_is_judged_and_the_finding_stands_on_the_order()
    {
        var finding = Of(Chart(1961).Order("a", "09:00", "active",
            (Concepts.OrderVacuumLow, Number(80, Unit.MmHg)), (Concepts.OrderVacuumHigh, Number(120, Unit.MmHg)), (Concepts.OrderVacuumHigh, Number(180, Unit.MmHg))).Judge());

        Assert.NotNull(finding);
        Assert.Equal((180m, Severity.High, "ServiceRequest/a"), (finding.Latest.Value!.Value, finding.Latest.Severity, finding.Line));
        Assert.Equal(At("09:00"), finding.First.At);
    }

    [Fact]
    public void A_range_written_with_minus_signs_is_judged_by_its_deeper_end() => Assert.Equal(180m, Of(Chart(1961).Order("a", "09:00", "active",
        (Concepts.OrderVacuumLow, Number(-180, Unit.MmHg)), (Concepts.OrderVacuumHigh, Number(-80, Unit.MmHg))).Judge())!.Latest.Value);

    [Theory]
    [InlineData(200, true, false)]
    [InlineData(80, false, true)]
    public void An_order_bounded_only_from_below_breaches_over_the_ceiling_and_is_else_open(int amount, bool breaches, bool cannotTell)
    {
        var found = Chart(1961).Order("a", "09:00", "active", (Concepts.OrderVacuumLow, Number(amount, Unit.MmHg, Comparator.AtLeast))).Judge();

        Assert.Equal(breaches, Of(found) is not null);
        Assert.Equal(cannotTell, found.CannotTell.Any(one => one.Rule.Id == Check));
    }

    [Theory]
    [InlineData(120, "", Missing.VacuumUnit)]
    [InlineData(15, "mm[Hg]", Missing.VacuumUnit)]
    [InlineData(0, "mm[Hg]", Missing.RegulatorMode)]
    public void A_doubtful_order_cannot_be_told(int amount, string unit, Missing missing)
    {
        var found = Ordered(1961, Number(amount, unit.Length == 0 ? Unit.None : Units.FromUcum(unit))).Judge();

        Assert.Null(Of(found));
        Assert.Equal([missing], found.CannotTell.Single(one => one.Rule.Id == Check).Missing);
    }

    [Fact]
    public void A_number_without_unit_breaches_where_it_is_over_in_every_possible_unit() => Assert.NotNull(Of(Ordered(1961, Number(500, Unit.None)).Judge()));

    [Theory]
    [InlineData(1961, 130, 120)]
    [InlineData(2026, 90, 80)] // the neonate's own ceiling is stricter and does not rise
    public void Monitored_intracranial_pressure_tightens_an_order_and_never_loosens_it(int born, int amount, int limit)
    {
        var found = new ChartBuilder().Born(born, 2, 20).Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Yes)
            .Order("a", "09:00", "active", (Concepts.OrderVacuumHigh, Number(amount, Unit.MmHg))).Judge();

        Assert.Equal(limit, Of(found)!.Latest.Limit.Low);
    }

    [Theory]
    [InlineData("on-hold")]
    [InlineData("completed")]
    [InlineData("draft")]
    public void An_order_that_is_not_active_is_not_judged(string status) => Assert.Null(Of(
        Chart(1961).Order("a", "09:00", status, (Concepts.OrderVacuumHigh, Number(300, Unit.MmHg))).Judge()));

    [Fact]
    public void An_order_without_vacuum_gets_no_verdict()
    {
        var found = Chart(1961).Order("a", "09:00", "active", (Concepts.CatheterSize, Number(12, Unit.French))).Judge();

        Assert.Null(Of(found));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Check);
    }

    [Fact]
    public void An_order_for_gastric_suction_is_not_judged() => Assert.Null(Of(Chart(1961).Order("a", "09:00", "active",
        (Concepts.OrderVacuumHigh, Number(300, Unit.MmHg)), (Concepts.SuctionUse, Answer("gastric"))).Judge()));

    private static DerivedFinding? Of(DerivedFindings found) => found.Findings.SingleOrDefault(finding => finding.Rule.Id == Check);

    // Contract §2: a circumstance is true until charted false. An order in force is judged again when monitoring begins, and what it allowed then stays said.
    [Theory]
    [InlineData("10:00", null, true)]
    [InlineData("10:00", "11:00", true)]
    [InlineData("07:00", "08:30", false)]
    public void Monitoring_that_begins_while_an_order_is_in_force_tightens_it(string begins, string? ends, bool breaches)
    {
        var chart = Chart(1961).Row("i", Concepts.IntracranialPressureMonitored, begins, FactValue.Yes).Order("a", "09:00", "active", (Concepts.OrderVacuumHigh, Number(130, Unit.MmHg)));
        chart = ends is null ? chart : chart.Row("i2", Concepts.IntracranialPressureMonitored, ends, FactValue.No);

        Assert.Equal(breaches, Of(chart.Judge()) is not null);
    }

    private static ChartBuilder Ordered(int born, FactValue vacuum) => Chart(born).Order("a", "09:00", "active", (Concepts.OrderVacuumHigh, vacuum));

    private static ChartBuilder Chart(int born) => new ChartBuilder().Born(born, 4, 5);
}
