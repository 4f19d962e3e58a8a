using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>What has misled people about vacuum: each a row or a clock that looks like another.</summary>
public sealed class VacuumTrapsTests
{
    // A teaching page prints 20 cmH2O where 20 kPa is meant; read so it is 14.7 mm[Hg].
    [Fact]
    public void Twenty_centimetres_of_water_after_rows_in_kilopascal_are_doubted_and_clear_nothing()
    {
        var found = Chart(1961).Row("v1", Concepts.VacuumPressure, "08:00", Number(22, Unit.Kilopascal))
            .Row("v2", Concepts.VacuumPressure, "09:00", Number(20, Unit.CmH2O)).Judge();

        Assert.Equal(FindingState.Open, Assert.Single(Of(found, "vacuum-above-ceiling")).State);
        Assert.Equal(At("09:00"), Assert.Single(Of(found, "vacuum-unit-doubtful")).First.At);
        Assert.Empty(Of(found, "vacuum-below-useful"));
    }

    // 45 cm[H2O] is 33 mm[Hg], possible by itself; as the row's usual kPa it would be 338.
    [Fact]
    public void Water_that_is_possible_by_itself_is_doubted_against_the_rows_kilopascal()
    {
        var found = Chart(1961).Row("v1", Concepts.VacuumPressure, "08:00", Number(16, Unit.Kilopascal))
            .Row("v2", Concepts.VacuumPressure, "09:00", Number(45, Unit.CmH2O)).Judge();

        Assert.Single(Of(found, "vacuum-unit-doubtful"));
        Assert.Empty(Of(found, "vacuum-below-useful"));
    }

    // 15 cm[Hg] is 150 mm[Hg], 15 in[Hg] is 381.
    [Theory]
    [InlineData(15, Unit.CmHg, false)]
    [InlineData(15.1, Unit.CmHg, true)]
    [InlineData(5.9, Unit.InHg, false)] // 149.86
    [InlineData(6, Unit.InHg, true)] // 152.4
    [InlineData(15, Unit.InHg, true)]
    public void Centimetres_and_inches_of_mercury_are_not_taken_for_each_other(double amount, Unit unit, bool breaches)
    {
        var found = Chart(1961).Row("v", Concepts.VacuumPressure, "10:00", Number((decimal)amount, unit)).Judge();

        Assert.Equal(breaches, Of(found, "vacuum-above-ceiling").Length == 1);
        Assert.Empty(Of(found, "vacuum-unit-doubtful"));
    }

    [Theory]
    [InlineData(3, true)] // 30 mm[Hg] as written, 76 as the inches the row had
    [InlineData(12, false)] // 120 as written
    public void Centimetres_of_mercury_after_inches_are_doubted_only_where_inches_were_likelier(int amount, bool doubtful) => Assert.Equal(doubtful, Of(
        Chart(1961).Row("v1", Concepts.VacuumPressure, "08:00", Number(5, Unit.InHg)).Row("v2", Concepts.VacuumPressure, "09:00", Number(amount, Unit.CmHg)).Judge(),
        "vacuum-unit-doubtful").Length == 1);

    [Theory]
    [InlineData("vacuum-above-ceiling")]
    [InlineData("set-and-charted-vacuum-differ")]
    [InlineData("vacuum-below-useful")]
    public void Both_signs_in_one_rows_history_are_the_same_depth(string check) => Assert.Empty(Of(
        Chart(1961).Row("s", Concepts.VacuumSet, "07:00", Number(-120, Unit.MmHg)).Row("v1", Concepts.VacuumPressure, "08:00", Number(120, Unit.MmHg))
            .Row("v2", Concepts.VacuumPressure, "09:00", Number(-120, Unit.MmHg)).Judge(), check));

    // 16 kPa is 120.010 mm[Hg] and counts as 120.
    [Theory]
    [InlineData("strict-ranges", "bleeding-risk-with-high-vacuum", 0)]
    [InlineData("strict-ranges", "vacuum-above-ceiling", 0)]
    [InlineData("guideline-2022", "bleeding-risk-with-high-vacuum", 0)]
    public void Sixteen_kilopascal_are_at_most_120(string rules, string check, int findings) => Assert.Equal(findings, Of(
        Chart(1961).Row("b", Concepts.BleedingRisk, "08:00", FactValue.Yes).Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Yes)
            .Row("v", Concepts.VacuumPressure, "10:00", Number(16, Unit.Kilopascal)).Judge(rules), check).Length);

    [Theory]
    [InlineData(0)]
    [InlineData(400)]
    public void On_full_line_only_the_full_line_is_told(int gauge)
    {
        var found = Chart(1961).Row("b", Concepts.BleedingRisk, "08:00", FactValue.Yes).Row("s", Concepts.VacuumSet, "09:00", Number(100, Unit.MmHg))
            .Row("m", Concepts.RegulatorMode, "10:00", Answer("full-line")).Row("v", Concepts.VacuumPressure, "10:00", Number(gauge, Unit.MmHg)).Judge();

        Assert.Equal(["regulator-on-full-line"], found.Findings.Where(finding => !finding.IsWithheld).Select(finding => finding.Rule.Id), StringComparer.Ordinal);
    }

    [Fact]
    public void A_reading_while_flowing_that_is_over_is_found_twice_and_for_two_reasons()
    {
        var found = Chart(1961).Row("v", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(250, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("flowing"))).Judge();

        Assert.Single(Of(found, "vacuum-above-ceiling"));
        Assert.Single(Of(found, "vacuum-read-unoccluded"));
    }

    [Fact]
    public void A_gastric_regulator_may_run_intermittent_weak_and_unchecked()
    {
        var found = Chart(1961).Device("reg", "vacuum-regulator", (Concepts.SuctionUse, Answer("gastric"))).InUse("u", "reg", "07:00")
            .Row("m", Concepts.RegulatorMode, "08:00", Answer("intermittent"), device: "reg").Row("s", Concepts.VacuumSet, "08:00", Number(100, Unit.MmHg), device: "reg")
            .Row("v", Concepts.VacuumPressure, "09:00", Number(30, Unit.MmHg), device: "reg").Judge();

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    [Fact]
    public void A_neonates_ceiling_does_not_rise_where_intracranial_pressure_is_monitored()
    {
        var found = new ChartBuilder().Born(2026, 2, 20).Row("i", Concepts.IntracranialPressureMonitored, "08:00", FactValue.Yes)
            .Row("v", Concepts.VacuumPressure, "10:00", Number(81, Unit.MmHg)).Judge();

        Assert.Equal(80m, Assert.Single(Of(found, "vacuum-above-ceiling")).Latest.Limit.Low);
    }

    // On 29 March 2026 clocks go from 02:00+01:00 to 03:00+02:00: ten minutes lie between, though the clock shows seventy.
    [Theory]
    [InlineData("29 01:55+01:00", false)]
    [InlineData("29 01:49+01:00", true)]
    public void A_reading_before_the_clocks_go_forward_is_as_old_as_it_is(string readAt, bool breaches) => Assert.Equal(breaches, Of(
        Chart(1961).Row("v", Concepts.VacuumPressure, readAt, Number(100, Unit.MmHg)).Row("s", Concepts.SuctionPass, "29 03:05+02:00", FactValue.Absent).Judge(asOf: "30 00:00"),
        "vacuum-not-checked-before-pass").Length == 1);

    [Theory]
    [InlineData("29 09:00+02:00", 1)] // twelve hours, though the clock shows thirteen
    [InlineData("29 09:01+02:00", 0)]
    public void A_set_value_holds_twelve_hours_across_the_change_of_clocks(string readAt, int findings) => Assert.Equal(findings, Of(
        Chart(1961).Row("s", Concepts.VacuumSet, "28 20:00+01:00", Number(100, Unit.MmHg)).Row("v", Concepts.VacuumPressure, readAt, Number(140, Unit.MmHg)).Judge(asOf: "30 00:00"),
        "set-and-charted-vacuum-differ").Length);

    [Fact]
    public void The_next_patient_at_a_bed_neither_inherits_nor_ends_the_flag_of_the_one_before()
    {
        ChartBuilder Bed() => new ChartBuilder().RegulatorAt("reg", "bed-7")
            .Born(1961, 4, 5).Encounter("e1", "06:00", "12:00", "bed-7").Procedure("s1", "10:00:30", uses: ["reg"])
            .Row("v1", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg), about: "reg")
            .Patients("p2").Born(1970, 4, 5).Encounter("e2", "12:00", bed: "bed-7").Procedure("s2", "13:00:30", uses: ["reg"])
            .Row("v2", "13:00", null, null, "reg", null, null, (Concepts.VacuumPressure, Number(100, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded")));

        Assert.Empty(Of(Bed().Judge(), "vacuum-above-ceiling"));
        var before = Assert.Single(Of(Bed().Patients("p1").Judge(), "vacuum-above-ceiling"));
        Assert.Equal((FindingState.Cleared, At("12:00"), true), (before.State, before.EndedAt, before.LineEnded));
    }

    private static DerivedFinding[] Of(DerivedFindings found, string check) => [.. found.Findings.Where(finding => finding.Rule.Id == check)];

    private static ChartBuilder Chart(int born) => new ChartBuilder().Born(born, 4, 20);
}
