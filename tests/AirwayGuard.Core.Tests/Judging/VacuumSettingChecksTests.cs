using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;
using AirwayGuard.TestKit.Charts;
using Xunit;
using static AirwayGuard.TestKit.Charts.ChartBuilder;

namespace AirwayGuard.Core.Tests.Judging;

/// <summary>regulator-intermittent, vacuum-below-useful, vacuum-read-unoccluded, set-and-charted-vacuum-differ, bleeding-risk-with-high-vacuum.</summary>
public sealed class VacuumSettingChecksTests
{
    [Fact]
    public void An_intermittent_regulator_stands_until_another_mode_is_charted()
    {
        var chart = Chart(1961).Row("m1", Concepts.RegulatorMode, "10:00", Answer("intermittent"))
            .Row("v", Concepts.VacuumPressure, "10:30", Number(100, Unit.MmHg));
        var open = Of(chart.Judge(), "regulator-intermittent").Single();
        Assert.Equal((FindingState.Open, "intermittent", Severity.Moderate), (open.State, open.Latest.Code, open.Latest.Severity));

        var cleared = Of(chart.Row("m2", Concepts.RegulatorMode, "11:00", Answer("regulated")).Judge(), "regulator-intermittent").Single();
        Assert.Equal((FindingState.Cleared, At("11:00")), (cleared.State, cleared.EndedAt));
    }

    [Theory]
    [InlineData("regulated")]
    [InlineData("full-line")]
    [InlineData("off")]
    public void Another_mode_is_not_intermittent(string mode) => Assert.Empty(Of(
        Chart(1961).Row("m", Concepts.RegulatorMode, "10:00", Answer(mode)).Judge(), "regulator-intermittent"));

    // Common practice, no source: 40 mm[Hg] in neonates, 60 beyond.
    [Theory]
    [InlineData(2026, 40, "mm[Hg]", false)]
    [InlineData(2026, 39.9, "mm[Hg]", true)]
    [InlineData(2025, 60, "mm[Hg]", false)]
    [InlineData(2025, 59, "mm[Hg]", true)]
    [InlineData(2018, 59, "mm[Hg]", true)]
    [InlineData(1961, 60, "mm[Hg]", false)]
    [InlineData(1961, 59.9, "mm[Hg]", true)]
    [InlineData(1961, -59, "mm[Hg]", true)]
    [InlineData(1961, 8, "kPa", false)] // 60.005 mm[Hg]
    [InlineData(1961, 7.9, "kPa", true)]
    public void A_vacuum_below_the_useful_is_found_in_both_sets(int born, double amount, string unit, bool breaches)
    {
        foreach (var rules in (string[])["strict-ranges", "guideline-2022"])
        {
            Assert.Equal(breaches, Of(Chart(born, 2).Row("v", Concepts.VacuumPressure, "10:00", Number((decimal)amount, Units.FromUcum(unit))).Judge(rules), "vacuum-below-useful").Length == 1);
        }
    }

    [Theory]
    [InlineData(50, "", null)]
    [InlineData(19, "mm[Hg]", null)]
    [InlineData(50, "mm[Hg]", "full-line")]
    [InlineData(0, "mm[Hg]", "off")]
    [InlineData(0, "mm[Hg]", "full-line")]
    public void A_doubtful_unit_and_a_regulator_that_is_off_or_bypassed_are_not_judged_as_weak(int amount, string unit, string? mode)
    {
        var found = Moded(mode).Row("v", Concepts.VacuumPressure, "10:00", Number(amount, unit.Length == 0 ? Unit.None : Units.FromUcum(unit))).Judge();

        Assert.Empty(Of(found, "vacuum-below-useful"));
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "vacuum-below-useful");
    }

    // "At most 60" may be 60, which is useful; less than 60 is not.
    [Theory]
    [InlineData(Comparator.AtMost, false, true)]
    [InlineData(Comparator.Below, true, false)]
    [InlineData(Comparator.AtLeast, false, false)]
    [InlineData(Comparator.Above, false, false)]
    public void A_comparator_at_the_useful_says_only_what_it_says(Comparator comparator, bool breaches, bool cannotTell)
    {
        var found = Chart(1961, 2).Row("v", Concepts.VacuumPressure, "10:00", Number(60, Unit.MmHg, comparator)).Judge();

        Assert.Equal(breaches, Of(found, "vacuum-below-useful").Length == 1);
        Assert.Equal(cannotTell, found.CannotTell.Any(one => one.Rule.Id == "vacuum-below-useful"));
    }

    // That it is charted off explains a gauge at 0, and no other number.
    [Fact]
    public void A_number_on_a_regulator_charted_as_off_is_judged_all_the_same() => Assert.Single(
        Of(Moded("off").Row("v", Concepts.VacuumPressure, "10:00", Number(50, Unit.MmHg)).Judge(), "vacuum-below-useful"));

    [Theory]
    [InlineData(null, false, true)]
    [InlineData("regulated", true, false)]
    public void A_gauge_at_nothing_is_weak_only_where_the_regulator_is_on(string? mode, bool breaches, bool cannotTell)
    {
        var found = Moded(mode).Row("v", Concepts.VacuumPressure, "10:00", Number(0, Unit.MmHg)).Judge();

        Assert.Equal(breaches, Of(found, "vacuum-below-useful").Length == 1);
        Assert.Equal(cannotTell, found.CannotTell.Any(one => one.Rule.Id == "vacuum-below-useful" && one.Missing[0] == Missing.RegulatorMode));
    }

    [Fact]
    public void A_reading_taken_flowing_is_found_and_an_occluded_one_is_not()
    {
        var found = Chart(1961).Row("v1", "10:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(90, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("flowing")))
            .Row("v2", "11:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(90, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("occluded"))).Judge();

        Assert.Equal(At("10:00"), Of(found, "vacuum-read-unoccluded").Single().First.At);
        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "vacuum-read-unoccluded");
    }

    [Fact]
    public void Readings_without_a_known_method_are_told_once_for_the_episode()
    {
        var told = Chart(1961).Row("a", Concepts.AirwayType, "08:00", Answer("tracheal-tube"))
            .Row("v1", Concepts.VacuumPressure, "10:00", Number(90, Unit.MmHg))
            .Row("v2", "11:00", null, null, null, null, null, (Concepts.VacuumPressure, Number(90, Unit.MmHg)), (Concepts.VacuumReadingMethod, Answer("unknown")))
            .Judge().CannotTell.Single(one => one.Rule.Id == "vacuum-read-unoccluded");

        Assert.Equal((2, Missing.ReadingMethod), (told.Count, Assert.Single(told.Missing)));
    }

    [Fact]
    public void A_set_value_and_a_mode_have_no_reading_method()
    {
        var found = Chart(1961).Device("reg", "vacuum-regulator").Metric("set", "reg", "setting").Row("m", Concepts.RegulatorMode, "09:00", Answer("regulated"))
            .Row("s", Concepts.VacuumSet, "10:00", Number(90, Unit.MmHg)).Row("t", Concepts.VacuumPressure, "11:00", Number(90, Unit.MmHg), device: "DeviceMetric/set").Judge();

        Assert.DoesNotContain(found.CannotTell, one => one.Rule.Id == "vacuum-read-unoccluded");
        Assert.Empty(Of(found, "vacuum-read-unoccluded"));
    }

    // Common practice, no source: 20 mm[Hg]; 2.7 kPa is 20.25 mm[Hg] and counts as 20.
    [Theory]
    [InlineData(120, "mm[Hg]", 140, "mm[Hg]", false)]
    [InlineData(120, "mm[Hg]", 140.1, "mm[Hg]", true)]
    [InlineData(120, "mm[Hg]", 99, "mm[Hg]", true)]
    [InlineData(120, "mm[Hg]", -120, "mm[Hg]", false)]
    [InlineData(16, "kPa", 18.7, "kPa", false)]
    [InlineData(16, "kPa", 18.8, "kPa", true)]
    [InlineData(16, "kPa", 140, "mm[Hg]", false)]
    public void A_reading_far_from_the_set_value_is_found(double set, string setUnit, double read, string readUnit, bool breaches) => Assert.Equal(breaches, Of(
        Chart(1961).Row("s", Concepts.VacuumSet, "09:00", Number((decimal)set, Units.FromUcum(setUnit)))
            .Row("v", Concepts.VacuumPressure, "10:00", Number((decimal)read, Units.FromUcum(readUnit))).Judge(), "set-and-charted-vacuum-differ").Length == 1);

    [Theory]
    [InlineData("21:00", 1)]
    [InlineData("21:01", 0)]
    public void A_set_value_holds_twelve_hours(string readAt, int findings) => Assert.Equal(findings, Of(
        Chart(1961).Row("s", Concepts.VacuumSet, "09:00", Number(100, Unit.MmHg)).Row("v", Concepts.VacuumPressure, readAt, Number(140, Unit.MmHg)).Judge(),
        "set-and-charted-vacuum-differ").Length);

    [Fact]
    public void Only_the_latest_set_value_of_the_same_line_is_compared()
    {
        ChartBuilder Two() => Chart(1961).Device("r1", "vacuum-regulator").Device("r2", "vacuum-regulator")
            .Row("s1", Concepts.VacuumSet, "09:00", Number(80, Unit.MmHg), device: "r1").Row("s2", Concepts.VacuumSet, "09:30", Number(120, Unit.MmHg), device: "r1");

        Assert.Empty(Of(Two().Row("v", Concepts.VacuumPressure, "10:00", Number(140, Unit.MmHg), device: "r1").Judge(), "set-and-charted-vacuum-differ"));
        Assert.Empty(Of(Two().Row("v", Concepts.VacuumPressure, "10:00", Number(150, Unit.MmHg), device: "r2").Judge(), "set-and-charted-vacuum-differ"));
        var finding = Of(Two().Row("v", Concepts.VacuumPressure, "10:00", Number(150, Unit.MmHg), device: "r1").Judge(), "set-and-charted-vacuum-differ").Single();
        Assert.Equal(30m, finding.Latest.Value);
    }

    [Theory]
    [InlineData("full-line", 400)]
    [InlineData("off", 0)]
    public void Off_and_full_line_leave_nothing_to_compare_with_the_set_value(string mode, int read) => Assert.Empty(Of(
        Moded(mode).Row("s", Concepts.VacuumSet, "09:00", Number(100, Unit.MmHg)).Row("v", Concepts.VacuumPressure, "10:00", Number(read, Unit.MmHg)).Judge(),
        "set-and-charted-vacuum-differ"));

    // Only a zero is not judged of a regulator that is off: whoever reads 140 on one said to be off reads a number that was not set.
    [Fact]
    public void A_number_on_a_regulator_charted_off_is_compared_with_the_set_value() => Assert.Equal(40m, Of(
        Moded("off").Row("s", Concepts.VacuumSet, "09:00", Number(100, Unit.MmHg)).Row("v", Concepts.VacuumPressure, "10:00", Number(140, Unit.MmHg)).Judge(),
        "set-and-charted-vacuum-differ").Single().Latest.Value);

    [Theory]
    [InlineData(90, "", Comparator.Exactly, Missing.VacuumUnit)]
    [InlineData(200, "mm[Hg]", Comparator.Below, Missing.ExactValue)]
    public void A_reading_that_cannot_be_compared_with_the_set_value_cannot_be_told(int read, string unit, Comparator comparator, Missing missing)
    {
        var found = Chart(1961).Row("s", Concepts.VacuumSet, "09:00", Number(100, Unit.MmHg))
            .Row("v", Concepts.VacuumPressure, "10:00", Number(read, unit.Length == 0 ? Unit.None : Units.FromUcum(unit), comparator)).Judge();

        Assert.Equal([missing], found.CannotTell.Single(one => one.Rule.Id == "set-and-charted-vacuum-differ").Missing);
    }

    // Common practice, no source: 120 in the strict set, 150 in the other.
    [Theory]
    [InlineData("strict-ranges", 120, 0)]
    [InlineData("strict-ranges", 121, 1)]
    [InlineData("strict-ranges", 200, 1)]
    [InlineData("guideline-2022", 150, 0)]
    [InlineData("guideline-2022", 151, 1)]
    public void High_vacuum_at_a_charted_bleeding_risk_is_found_beside_the_ceiling(string rules, int amount, int findings)
    {
        var found = AtRisk(1961, FactValue.Yes).Row("v", Concepts.VacuumPressure, "10:00", Number(amount, Unit.MmHg)).Judge(rules);

        Assert.Equal(findings, Of(found, "bleeding-risk-with-high-vacuum").Length);
        Assert.Equal(amount == 200, Of(found, "vacuum-above-ceiling").Length == 1);
        Assert.All(Of(found, "bleeding-risk-with-high-vacuum"), one => Assert.NotNull(one.Latest.Circumstance));
    }

    [Fact]
    public void Without_a_bleeding_risk_or_an_adult_it_is_not_judged()
    {
        Assert.Empty(Of(Chart(1961).Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Judge(), "bleeding-risk-with-high-vacuum"));
        Assert.Empty(Of(AtRisk(1961, FactValue.No).Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Judge(), "bleeding-risk-with-high-vacuum"));
        Assert.Empty(Of(AtRisk(2018, FactValue.Yes).Row("v", Concepts.VacuumPressure, "10:00", Number(300, Unit.MmHg)).Judge(), "bleeding-risk-with-high-vacuum"));
    }

    [Fact]
    public void A_bleeding_risk_in_a_patient_without_a_birth_date_cannot_be_told() => Assert.Equal([Missing.BirthDate], new ChartBuilder()
        .Row("b", Concepts.BleedingRisk, "08:00", FactValue.Yes).Row("v", Concepts.VacuumPressure, "10:00", Number(140, Unit.MmHg))
        .Judge().CannotTell.Single(one => one.Rule.Id == "bleeding-risk-with-high-vacuum").Missing);

    private static ChartBuilder AtRisk(int born, FactValue risk) => Chart(born).Row("b", Concepts.BleedingRisk, "08:00", risk);

    private static ChartBuilder Moded(string? mode) => mode is null ? Chart(1961) : Chart(1961).Row("m", Concepts.RegulatorMode, "09:30", Answer(mode));

    private static DerivedFinding[] Of(DerivedFindings found, string check) => [.. found.Findings.Where(finding => finding.Rule.Id == check)];

    private static ChartBuilder Chart(int born, int month = 4) => new ChartBuilder().Born(born, month, 20);
}
