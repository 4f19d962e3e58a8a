using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>Every number in the meaning of a vacuum and its checks, told to the reference judge.</summary>
public sealed class ReferenceVacuumTests
{
    private const string Ceiling = "vacuum-above-ceiling", FullLine = "regulator-on-full-line", Doubtful = "vacuum-unit-doubtful";

    [Theory]
    // "S above … A 150": exactly 150 is within it; "150.4 mm[Hg] is above 150"; "20 kPa is not above 150"; either sign.
    [InlineData("1970-05-05", true, 150, "mm[Hg]", "pass")]
    [InlineData("1970-05-05", true, 150.4, "mm[Hg]", "breach")]
    [InlineData("1970-05-05", true, -150.4, "mm[Hg]", "breach")]
    [InlineData("1970-05-05", true, 20, "kPa", "pass")]
    [InlineData("1970-05-05", true, 20.1, "kPa", "breach")]
    // "G … A atOrAbove 200"
    [InlineData("1970-05-05", false, 200, "mm[Hg]", "breach")]
    [InlineData("1970-05-05", false, 199.9, "mm[Hg]", "pass")]
    // Child: S above 120, G atOrAbove 120; "16 kPa is not above 120" and "not below 120".
    [InlineData("2020-01-01", true, 120, "mm[Hg]", "pass")]
    [InlineData("2020-01-01", true, 16, "kPa", "pass")]
    [InlineData("2020-01-01", false, 16, "kPa", "breach")]
    [InlineData("2020-01-01", false, 120, "mm[Hg]", "breach")]
    [InlineData("2020-01-01", false, 119.9, "mm[Hg]", "pass")]
    // Infant above 100, neonate above 80.
    [InlineData("2025-09-01", true, 100, "mm[Hg]", "pass")]
    [InlineData("2025-09-01", true, 101, "mm[Hg]", "breach")]
    [InlineData("2026-02-20", true, 80, "mm[Hg]", "pass")]
    [InlineData("2026-02-20", true, 81, "mm[Hg]", "breach")]
    // Day 28 is neonate, day 29 infant.
    [InlineData("2026-02-01", true, 90, "mm[Hg]", "breach")]
    [InlineData("2026-01-31", true, 90, "mm[Hg]", "pass")]
    // No birth date, a year of two bands, a birth to come.
    [InlineData(null, true, 90, "mm[Hg]", "cannot-tell")]
    [InlineData("2008", true, 90, "mm[Hg]", "cannot-tell")]
    [InlineData("1990", true, 160, "mm[Hg]", "breach")]
    [InlineData("2026-03-02", true, 300, "mm[Hg]", "cannot-tell")]
    public void The_ceiling_of_the_band_is_compared_as_written(string? born, bool strict, double amount, string unit, string expected) =>
        Assert.Equal(expected, Told.Judge(Told.Born(born).With(Told.Vacuum(Told.At(0), (decimal)amount, unit)), strict).Says(Ceiling));

    [Theory]
    [InlineData(null, true, 80.5, "breach")]
    [InlineData(null, true, 80, "pass")]
    [InlineData(null, false, 120, "breach")]
    [InlineData("2008", true, 121, "breach")]
    [InlineData("2008", true, 120, "pass")]
    public void The_strictest_band_of_the_possible_ones_holds_when_asked_for(string? born, bool strict, double amount, string expected) =>
        Assert.Equal(expected, Told.Judge(Told.Born(born).With(Told.Vacuum(Told.At(0), (decimal)amount)), strict, unknownAge: UnknownAge.StrictestBand).Says(Ceiling));

    [Theory]
    // "ICP monitored: above 120 too, the stricter holds"
    [InlineData(true, 120, "pass")]
    [InlineData(true, 121, "breach")]
    [InlineData(false, 121, "breach")]
    public void Monitored_intracranial_pressure_lowers_the_ceiling(bool strict, double amount, string expected)
    {
        var monitored = Told.Adult.With(Told.YesNo("intracranial-pressure-monitored", Told.At(0), true), Told.Vacuum(Told.At(10), (decimal)amount));
        Assert.Equal(expected, Told.Judge(monitored, strict).Says(Ceiling));
        Assert.Equal("pass", Told.Judge(monitored.With(Told.YesNo("intracranial-pressure-monitored", Told.At(5), false)), strict).Says(Ceiling));
        Assert.Equal("pass", Told.Judge(monitored with { Stays = [new("e1", Told.Start, Told.At(9))] }, strict).Says(Ceiling));
    }

    [Theory]
    // "`<` X complies with 'below X'; `>` or `>=` at or over a ceiling breaches; any other that leaves it open is cannot-tell."
    [InlineData("<", 200, "pass", false)]
    [InlineData("<", 150, "pass", true)]
    [InlineData("<", 151, "cannot-tell", true)]
    [InlineData("<=", 200, "cannot-tell", false)]
    [InlineData("<=", 150, "pass", true)]
    [InlineData(">", 150, "breach", true)]
    [InlineData(">=", 150, "breach", true)]
    [InlineData(">", 149, "cannot-tell", true)]
    public void A_comparator_is_read_as_the_open_value_it_is(string comparator, double amount, string expected, bool strict) =>
        Assert.Equal(expected, Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), (decimal)amount, comparator: comparator)), strict).Says(Ceiling));

    [Theory]
    [InlineData(120, null, "cannot-tell")]
    // 500 without unit: over 150 in mm[Hg] and, as cm[H2O] (367.8), mbar and hPa (375); impossible in the others.
    [InlineData(500, null, "breach")]
    [InlineData(2000, null, "cannot-tell")]
    [InlineData(120, "[psi]", "cannot-tell")]
    [InlineData(19.9, "mm[Hg]", "cannot-tell")]
    // As a national teaching page prints the ideal suction pressure: 14.7 mm[Hg], the wrong unit beyond doubt.
    [InlineData(20, "cm[H2O]", "cannot-tell")]
    [InlineData(761, "mm[Hg]", "cannot-tell")]
    public void A_doubtful_unit_is_found_and_rarely_judged(double amount, string? unit, string ceiling)
    {
        var report = Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), (decimal)amount, unit)));
        Assert.Equal(ceiling, report.Says(Ceiling));
        Assert.Equal("breach", report.Says(Doubtful));
    }

    [Theory]
    [InlineData(20, "mm[Hg]", "pass")]
    [InlineData(760, "mm[Hg]", "pass")]
    [InlineData(4, "kPa", "pass")]
    public void The_edges_of_what_a_regulator_can_show_are_not_doubtful(double amount, string unit, string expected) =>
        Assert.Equal(expected, Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), (decimal)amount, unit))).Says(Doubtful));

    [Fact]
    public void Another_unit_than_the_rows_last_is_doubtful_only_where_the_old_unit_would_make_sense()
    {
        Assert.Equal("breach", Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), 16m, "kPa"), Told.Vacuum(Told.At(5), 20m))).Says(Doubtful));
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), 16m, "kPa"), Told.Vacuum(Told.At(5), 120m))).Says(Doubtful));
        Assert.Equal("breach", Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), 120m), Told.Vacuum(Told.At(5), 100m, "kPa"))).Says(Doubtful));
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), 120m), Told.Vacuum(Told.At(5), 16m, "kPa"))).Says(Doubtful));
    }

    [Theory]
    // "0: off, not judged; full-line, only that check; no mode, cannot-tell."
    [InlineData("off", "pass", "pass")]
    [InlineData("full-line", "pass", "breach")]
    [InlineData(null, "cannot-tell", "pass")]
    public void Nought_is_judged_by_its_mode(string? mode, string ceiling, string fullLine)
    {
        var history = Told.Adult.With(Told.Vacuum(Told.At(0), 0m));
        var report = Told.Judge(mode is null ? history : history.With(Told.Mode(Told.At(0), mode)));
        Assert.Equal((ceiling, fullLine, 1), (report.Says(Ceiling), report.Says(FullLine), report.Judged.Settings));
    }

    [Fact]
    public void Full_line_beside_a_number_over_the_ceiling_withholds_it()
    {
        var over = Told.Judge(Told.Adult.With(Told.Mode(Told.At(0), "full-line"), Told.Vacuum(Told.At(0), 400m)));
        Assert.Equal(FullLine, Assert.Single(over.Of(Ceiling)).WithheldBy);
        Assert.Equal("full-line", Assert.Single(over.Of(FullLine)).Code);
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Told.Mode(Told.At(0), "full-line"), Told.Vacuum(Told.At(0), 100m))).Says(Ceiling));
    }

    [Fact]
    public void A_mode_holds_twelve_hours_and_no_longer()
    {
        var history = Told.Adult.With(Told.Mode(Told.At(0), "full-line"));
        Assert.Equal(FullLine, Assert.Single(Told.Judge(history.With(Told.Vacuum(Told.At(720), 400m))).Of(Ceiling)).WithheldBy);
        Assert.Null(Assert.Single(Told.Judge(history.With(Told.Vacuum(Told.At(720, 1), 400m))).Of(Ceiling)).WithheldBy);
    }

    [Fact]
    public void Another_mode_ends_full_line()
    {
        var report = Told.Judge(Told.Adult.With(Told.Mode(Told.At(0), "full-line"), Told.Mode(Told.At(5), "full-line"), Told.Mode(Told.At(9), "regulated")));
        var finding = Assert.Single(report.Of(FullLine));
        Assert.Equal((2, "cleared", Told.At(0), Told.At(5)), (finding.Count, finding.State, finding.At, finding.Latest));
    }

    [Theory]
    // "whose method is occluded, or none where every breaching reading of the spell had none. Flowing and unknown never clear."
    [InlineData(null, null, "cleared")]
    [InlineData(null, "occluded", "cleared")]
    [InlineData("occluded", "occluded", "cleared")]
    [InlineData("occluded", null, "open")]
    [InlineData("flowing", null, "open")]
    [InlineData(null, "flowing", "open")]
    [InlineData(null, "unknown", "open")]
    public void A_spell_is_cleared_by_a_reading_as_good_as_the_one_that_breached(string? breaching, string? later, string state)
    {
        var report = Told.Judge(Told.Adult.With(Told.Vacuum(Told.At(0), 200m, method: breaching), Told.Vacuum(Told.At(5), 150m, method: later)));
        Assert.Equal(state, Assert.Single(report.Of(Ceiling)).State);
    }

    [Fact]
    public void Two_spells_are_two_findings_with_the_latest_value_of_each()
    {
        var report = Told.Judge(Told.Adult.With(
            Told.Vacuum(Told.At(0), 200m), Told.Vacuum(Told.At(1), 220m), Told.Vacuum(Told.At(2), 120m), Told.Vacuum(Told.At(3), 30m, "kPa")));
        Assert.Equal(
            [(Told.At(0), Told.At(1), 2, 220m, "cleared"), (Told.At(3), Told.At(3), 1, 225.019m, "open")],
            report.Of(Ceiling).Select(f => (f.At, f.Latest, f.Count, f.Value!.Value, f.State)));
    }

    [Fact]
    public void Suction_that_is_not_of_the_airway_is_kept_and_not_judged()
    {
        var gastric = Told.Vacuum(Told.At(0), 400m) with { Components = [("suction-use", new Charted.Answer("gastric"))] };
        var report = Told.Judge(Told.Adult.With(gastric));
        Assert.Equal(("pass", 0), (report.Says(Ceiling), report.Judged.Settings));
    }
}
