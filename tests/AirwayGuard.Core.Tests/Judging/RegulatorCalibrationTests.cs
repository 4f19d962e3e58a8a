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

/// <summary>regulator-calibration-overdue: twelve months by the calendar (from memory), in one timeline.</summary>
public sealed class RegulatorCalibrationTests
{
    private const string Check = "regulator-calibration-overdue";

    // A date without a time: on its anniversary nobody can say that more than twelve months ran.
    [Theory]
    [InlineData("15 23:00", 0)]
    [InlineData("16 00:00", 0)]
    [InlineData("16 00:01", 1)]
    public void A_date_runs_out_with_the_day_of_its_anniversary(string asOf, int findings)
    {
        var found = Used(FactValue.Date(2025, 3, 15, 8)).Judge(asOf: asOf);

        Assert.Equal(findings, Of(found).Length);
        Assert.All(Of(found), finding => Assert.Equal((At("15 00:00"), "Device/reg", Severity.Low), (finding.First.At, finding.Line, finding.Latest.Severity)));
    }

    // 29 February and twelve months is 28 February.
    [Theory]
    [InlineData(2024, 2, 29, 2025, 2, 28)]
    [InlineData(2025, 1, 31, 2026, 1, 31)]
    public void Months_are_counted_by_the_calendar(int year, int month, int day, int dueYear, int dueMonth, int dueDay) => Assert.Equal(
        new DateTime(dueYear, dueMonth, dueDay, 0, 0, 0, DateTimeKind.Utc).Ticks, Of(Used(FactValue.Date(year, month, day, 8)).Judge()).Single().First.At);

    [Theory]
    [InlineData("28 12:00", 0)]
    [InlineData("32 00:00", 0)] // the first of April
    [InlineData("32 00:01", 1)]
    public void A_month_without_a_day_has_not_run_out_before_the_month_is_over(string asOf, int findings) =>
        Assert.Equal(findings, Of(Used(FactValue.Date(2025, 3, 0, 6)).Judge(asOf: asOf)).Length);

    // Whether twelve months have run hangs on which day of it was meant.
    [Theory]
    [InlineData(2025, 0, "10:00", "open CalibrationDay")]
    [InlineData(2024, 0, "10:00", "breach 12")]
    [InlineData(2026, 0, "10:00", "")]
    [InlineData(2025, 3, "10:00", "open CalibrationDay")]
    [InlineData(2025, 2, "10:00", "breach 12")]
    [InlineData(2025, 4, "10:00", "")]
    public void A_date_without_its_day_is_open_from_when_it_may_have_run_out_until_it_has(int year, int month, string asOf, string expected) =>
        Assert.Equal(expected, Used(FactValue.Date(year, month, 0, (byte)(month == 0 ? 4 : 6))).Judge(asOf: asOf).Said(Check));

    [Fact]
    public void While_it_is_open_it_is_judged_again_once_it_has_run_out() => Assert.Contains(
        Used(FactValue.Date(2025, 3, 0, 6)).Judge(asOf: "10:00").Due, due => due.Check == Check && due.At == At("32 00:00") + TimeSpan.TicksPerMillisecond);

    // No regulator was calibrated tomorrow; what was charted before stands.
    [Fact]
    public void A_date_that_has_not_come_is_open_and_hides_no_other()
    {
        Assert.Equal("open CalibrationInPast", Used(FactValue.Date(2062, 1, 15, 8)).Judge(asOf: "13:00").Said(Check));
        Assert.Equal("open CalibrationInPast", Used(FactValue.Date(2026, 3, 3, 8)).Judge(asOf: "13:00").Said(Check));
        Assert.Equal("", Used(FactValue.Date(2026, 3, 2, 8)).Judge(asOf: "13:00").Said(Check)); // somewhere that day has begun

        var before = Used(FactValue.Date(2024, 1, 15, 8)).Row("c", Concepts.CalibratedOn, "09:00", FactValue.Date(2062, 1, 15, 8), about: "reg");
        Assert.Equal("breach 12, open CalibrationInPast", before.Judge(asOf: "13:00").Said(Check));
    }

    [Fact]
    public void A_later_calibration_ends_it_and_time_runs_anew()
    {
        var chart = Used(FactValue.Date(2025, 2, 1, 8)).Row("c", Concepts.CalibratedOn, "5 12:00", FactValue.Date(2026, 3, 5, 8), about: "reg");

        var finding = Of(chart.Judge()).Single();
        Assert.Equal((FindingState.Cleared, At("5 12:00")), (finding.State, finding.EndedAt));
    }

    [Fact]
    public void A_metrics_calibration_counts_for_its_device_to_the_minute()
    {
        var chart = Chart().Device("reg", "vacuum-regulator").Metric("m", "reg", "measurement", "1 10:00").Procedure("sx", "11:00", uses: ["reg"]);

        Assert.Empty(Of(chart.Judge()));
        Assert.DoesNotContain(chart.Judge().CannotTell, one => one.Rule.Id == Check);
    }

    [Fact]
    public void Without_a_date_it_cannot_be_told_once_for_the_regulator()
    {
        var told = Chart().Device("reg", "vacuum-regulator").Procedure("s1", "10:00", uses: ["reg"]).Procedure("s2", "11:00", uses: ["reg"])
            .Judge().CannotTell.Single(one => one.Rule.Id == Check);

        Assert.Equal((1, At("10:00"), "Device/reg", Missing.CalibrationDate), (told.Count, told.At, told.Line, Assert.Single(told.Missing)));
    }

    [Theory]
    [InlineData("gastric")]
    [InlineData("chest-drain")]
    public void A_regulator_for_another_suction_is_not_judged(string use)
    {
        var found = Chart().Device("reg", "vacuum-regulator", (Concepts.CalibratedOn, FactValue.Date(2024, 1, 1, 8)), (Concepts.SuctionUse, Answer(use)))
            .InUse("u", "reg", "08:00").Judge();

        Assert.Empty(Of(found));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == Check);
    }

    [Fact]
    public void A_regulator_that_nobody_uses_for_an_airway_is_not_judged() => Assert.Empty(Of(
        Chart().Device("reg", "vacuum-regulator", (Concepts.CalibratedOn, FactValue.Date(2024, 1, 1, 8))).InUse("u", "reg", "08:00").Judge()));

    // Two patients, one after the other, one regulator: it is found with the one who had it when it fell due.
    [Theory]
    [InlineData(3, "p1")]
    [InlineData(6, "p2")]
    [InlineData(9, "reg")] // in nobody's use then
    public void It_falls_due_in_one_timeline_only(int day, string where)
    {
        ChartBuilder Two() => new ChartBuilder().Device("reg", "vacuum-regulator", (Concepts.CalibratedOn, FactValue.Date(2025, 3, day, 8)))
            .Born(1961, 4, 5).InUse("u1", "reg", "1 08:00", "5 08:00").Procedure("s1", "2 10:00", uses: ["reg"])
            .Patients("p2").Born(1970, 4, 5).InUse("u2", "reg", "5 08:00", "8 08:00").Procedure("s2", "5 10:00", uses: ["reg"]);

        Assert.Equal(where == "p1" ? 1 : 0, Of(Two().Patients("p1").Judge()).Length);
        Assert.Equal(where == "p2" ? 1 : 0, Of(Two().Judge()).Length);
        Assert.Equal(where == "reg" ? 1 : 0, Of(Two().JudgeAlone("reg")).Length);
    }

    [Fact]
    public void A_regulator_whose_only_claim_is_one_patients_passes_is_that_patients()
    {
        Assert.Single(Of(Used(FactValue.Date(2025, 1, 1, 8)).Judge()));
        Assert.Empty(Of(Used(FactValue.Date(2025, 1, 1, 8)).JudgeAlone("reg")));
    }

    [Fact]
    public void A_regulator_that_two_patients_passes_name_is_judged_by_itself()
    {
        ChartBuilder Two() => Used(FactValue.Date(2025, 1, 1, 8)).Patients("p2").Born(1970, 4, 5).Procedure("s2", "3 10:00", uses: ["reg"]);

        Assert.Empty(Of(Two().Patients("p1").Judge()));
        Assert.Empty(Of(Two().Judge()));
        Assert.Single(Of(Two().JudgeAlone("reg")));
    }

    [Fact]
    public void What_is_told_of_a_regulator_by_itself_stands_where_the_regulator_hangs()
    {
        var chart = Chart().RegulatorAt("reg", "bed-7").Row("c", Concepts.CalibratedOn, "09:00", FactValue.Date(2025, 1, 1, 8), about: "reg").Procedure("s1", "10:00", uses: ["reg"]);
        Assert.True(Of(chart.Judge()).Single().Place.IsNone);

        var alone = Of(chart.Patients("p2").Born(1970, 4, 5).Procedure("s2", "3 10:00", uses: ["reg"]).JudgeAlone("reg")).Single();
        Assert.Equal("Location/bed-7", chart.Entities.NameOf(alone.Place));
    }

    [Fact]
    public void A_regulators_own_timeline_leaves_its_readings_to_its_patients()
    {
        var found = Used(FactValue.Date(2026, 1, 1, 8)).Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg), about: "reg").JudgeAlone("reg");

        Assert.Empty(found.Findings);
        Assert.Empty(found.CannotTell);
    }

    private static DerivedFinding[] Of(DerivedFindings found) => [.. found.Findings.Where(finding => finding.Rule.Id == Check)];

    private static ChartBuilder Used(FactValue calibrated) => Chart().Device("reg", "vacuum-regulator", (Concepts.CalibratedOn, calibrated)).Procedure("sx", "10:00", uses: ["reg"]);

    private static ChartBuilder Chart() => new ChartBuilder().Born(1961, 4, 5);
}
