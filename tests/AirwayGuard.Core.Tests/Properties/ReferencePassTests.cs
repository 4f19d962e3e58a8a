using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>Every number in the meaning of a pass and its checks, told to the reference judge.</summary>
public sealed class ReferencePassTests
{
    private const string Long = "pass-too-long", Preoxygenation = "preoxygenation-missing", Wide = "catheter-too-wide";

    [Theory]
    // "above 15, N 10; ICP monitored above 10 | moderate; high above 20"
    [InlineData("1970-05-05", 15, "s", null)]
    [InlineData("1970-05-05", 15.5, "s", "moderate")]
    [InlineData("1970-05-05", 20, "s", "moderate")]
    [InlineData("1970-05-05", 21, "s", "high")]
    [InlineData("1970-05-05", 0.25, "min", null)]
    [InlineData("2026-02-20", 10, "s", null)]
    [InlineData("2026-02-20", 11, "s", "moderate")]
    public void A_pass_over_its_bands_seconds_is_too_long(string born, double amount, string unit, string? severity) =>
        Assert.Equal(severity, Told.Judge(Told.Born(born).With(Told.Number("pass-duration", Told.At(0), (decimal)amount, unit))).Of(Long).SingleOrDefault()?.Severity);

    [Theory]
    // "within the limit, pass; divided by n still over, breach; between, cannot-tell"
    [InlineData(15, 2, "pass")]
    [InlineData(16, 2, "cannot-tell")]
    [InlineData(30, 2, "cannot-tell")]
    [InlineData(31, 2, "breach")]
    [InlineData(46, 3, "breach")]
    public void A_duration_beside_a_count_of_passes_is_divided_before_it_breaches(double seconds, int count, string expected)
    {
        var report = Told.Judge(Told.Adult.With(Told.Pass(Told.At(0), (decimal)seconds), Told.Number("pass-count", Told.At(0), count, "{count}")));
        Assert.Equal((expected, 1), (report.Says(Long), report.Judged.Passes));
    }

    [Theory]
    // "pass-duration, else end − start; more than 1 s apart: the longer"
    [InlineData(14, null, "pass")]
    [InlineData(14, 17, "breach")]
    [InlineData(16, 15, "breach")]
    [InlineData(15, 16, "pass")]
    [InlineData(17, 14, "breach")]
    [InlineData(null, 14, "pass")]
    [InlineData(null, 16, "breach")]
    public void The_longer_of_two_durations_counts(int? charted, int? period, string expected)
    {
        var act = new SuctionAct("a1", Told.At(0), period is { } s ? Told.At(0, s) : null, "completed", "e1", null, []);
        var history = Told.Adult with { Acts = [act] };
        Assert.Equal(expected, Told.Judge(charted is { } c ? history.With(Told.Pass(Told.At(0), c)) : history).Says(Long));
    }

    [Fact]
    public void A_pass_without_end_and_duration_is_cannot_tell() =>
        Assert.Equal("cannot-tell", Told.Judge(Told.Adult.With(Told.Row("suction-pass", Told.At(0), new Charted.Nothing()))).Says(Long));

    [Theory]
    // "each starting at most 5 min after the one before ended (started, if no end)"
    [InlineData(5, 0, 1)]
    [InlineData(5, 1, 2)]
    public void A_session_breaks_after_five_minutes(int minutes, int seconds, int sessions)
    {
        var report = Told.Judge(Told.Adult.With(Told.Pass(Told.At(0)), Told.Pass(Told.At(minutes, seconds))));
        Assert.Equal((2, sessions), (report.Judged.Passes, report.Judged.Sessions));
    }

    [Fact]
    public void Passes_under_one_parent_are_one_session()
    {
        var history = Told.Adult with
        {
            Acts = [new("a1", Told.At(0), Told.At(0, 8), "completed", "e1", "set", []), new("a2", Told.At(30), Told.At(30, 8), "completed", "e1", "set", [])],
        };
        Assert.Equal((2, 1), (Told.Judge(history).Judged.Passes, Told.Judge(history).Judged.Sessions));
    }

    [Fact]
    public void Rows_join_one_pass_and_a_lower_kind_is_made_only_of_what_is_left()
    {
        var act = new SuctionAct("a1", Told.At(0), Told.At(0, 20), "completed", "e1", null, []);
        var history = (Told.Adult with { Acts = [act] }).With(
            Told.Row("suction-pass", Told.At(0), new Charted.Nothing()),
            Told.Pass(Told.At(0, 15)),
            Told.Row("suction-pass", Told.At(10), new Charted.Nothing(), "x"),
            Told.Row("suction-pass", Told.At(10), new Charted.Nothing(), "y"),
            Told.Row("suction-pass", Told.At(20), new Charted.YesNo(false)),
            Told.Vacuum(Told.At(30), 100m),
            Told.Number("catheter-size", Told.At(30), 12m, "[Ch]"));
        Assert.Equal(new JudgedCounts(3, 2, 0, 1), Told.Judge(history).Judged);
        // Without the Procedure its row is a pass, and so is the duration, which no period holds any more.
        Assert.Equal(4, Told.Judge(history with { Acts = [act with { Status = "not-done" }] }).Judged.Passes);
    }

    [Theory]
    // "`preoxygenation` true, or it or fio2 of 99 % or more within 2 min before the start"
    [InlineData("fio2", 100, 2, 0, "pass")]
    [InlineData("fio2", 99, 2, 0, "pass")]
    [InlineData("fio2", 98.9, 2, 0, "breach")]
    [InlineData("fio2", 100, 2, 1, "breach")]
    [InlineData("preoxygenation", 100, 0, 30, "pass")]
    [InlineData("preoxygenation", 80, 0, 30, "breach")]
    // "baseline 99 % or more": "from 4 h to 3 min before it"
    [InlineData("fio2", 100, 2, 59, "breach")]
    [InlineData("fio2", 100, 3, 0, "pass")]
    [InlineData("fio2", 100, 240, 0, "pass")]
    [InlineData("fio2", 100, 240, 1, "breach")]
    public void Oxygen_counts_in_the_two_minutes_before_and_as_baseline(string concept, double percent, int minutes, int seconds, string expected) =>
        Assert.Equal(expected, Told.Judge(Told.Adult.With(Told.Number(concept, Told.At(-minutes, -seconds), (decimal)percent, "%"), Told.Pass(Told.At(0)))).Says(Preoxygenation));

    [Theory]
    [InlineData("1970-05-05", "breach")]
    [InlineData("2020-01-01", "breach")]
    [InlineData("2025-09-01", "pass")]
    [InlineData("2026-02-20", "pass")]
    [InlineData(null, "cannot-tell")]
    public void Preoxygenation_is_judged_in_children_and_adults(string? born, string expected)
    {
        Assert.Equal(expected, Told.Judge(Told.Born(born).With(Told.Pass(Told.At(0)))).Says(Preoxygenation));
        Assert.Equal(expected, Told.Judge(Told.Born(born).With(Told.Pass(Told.At(0))), unknownAge: UnknownAge.StrictestBand).Says(Preoxygenation));
    }

    [Fact]
    public void Preoxygenation_before_the_first_pass_holds_for_the_session_unless_charted_otherwise()
    {
        var history = Told.Adult.With(Told.YesNo("preoxygenation", Told.At(0), true), Told.Pass(Told.At(0)), Told.Pass(Told.At(4)));
        Assert.Equal("pass", Told.Judge(history).Says(Preoxygenation));
        var otherwise = Assert.Single(Told.Judge(history.With(Told.YesNo("preoxygenation", Told.At(4), false))).Of(Preoxygenation));
        Assert.Equal(Told.At(4), otherwise.At);
    }

    [Fact]
    public void What_is_missing_waits_two_hours_and_is_not_asked_where_contraindicated()
    {
        var history = Told.Adult.With(Told.Pass(Told.At(0)));
        Assert.Equal("pass", Told.Judge(history, asOf: Told.At(119, 59)).Says(Preoxygenation));
        Assert.Equal("breach", Told.Judge(history, asOf: Told.At(120)).Says(Preoxygenation));
        Assert.Equal("pass", Told.Judge(history.With(Told.YesNo("hyperoxygenation-contraindicated", Told.At(-5), true))).Says(Preoxygenation));
    }

    [Theory]
    // Half of the tube for children and adults, 0.70 for the younger (AARC 2022; AARC 2010 for infants): reached or exceeded by one rule set, exceeded by the other.
    [InlineData("1970-05-05", 12, 8.0, true, null, null)]
    [InlineData("1970-05-05", 12, 8.0, false, "moderate", 0.5)]
    [InlineData("1970-05-05", 14, 8.0, true, "moderate", 0.583)]
    [InlineData("1970-05-05", 12, 7.5, true, "moderate", 0.533)]
    [InlineData("1970-05-05", 14, 6.5, true, "high", 0.718)]
    [InlineData("2026-02-20", 6, 3.5, false, null, null)]
    [InlineData("2026-02-20", 6, 2.5, true, "high", 0.8)]
    [InlineData("2025-09-01", 8, 3.5, true, "high", 0.762)]
    public void The_catheter_may_take_half_the_tube_or_seven_tenths_in_the_smallest(string born, int french, double mm, bool strict, string? severity, double? ratio)
    {
        var finding = Told.Judge(Fit(born, french, (decimal)mm), strict).Of(Wide).SingleOrDefault();
        Assert.Equal((severity, (decimal?)ratio), (finding?.Severity, finding?.Value));
    }

    [Fact]
    public void A_catheter_wider_than_the_tube_is_too_wide_only_where_no_check_says_that_it_does_not_fit()
    {
        var report = Told.Judge(Fit("1970-05-05", 12, 4m));
        Assert.Equal("catheter-does-not-fit", Assert.Single(report.Of(Wide)).WithheldBy);
        Assert.Null(Assert.Single(report.Only([Wide]).Of(Wide)).WithheldBy);
    }

    [Fact]
    public void The_inner_cannula_in_place_gives_the_diameter()
    {
        var history = Fit("1970-05-05", 12, 8.0m);
        Assert.Equal("breach", Told.Judge(history.With(Told.Number("inner-cannula-diameter", Told.At(0), 6.5m, "mm"))).Says(Wide));
        Assert.Equal("cannot-tell", Told.Judge(history.With(Told.YesNo("inner-cannula-in-place", Told.At(0), true))).Says(Wide));
        Assert.Equal("pass", Told.Judge(history.With(
            Told.Number("inner-cannula-diameter", Told.At(0), 6.5m, "mm"), Told.YesNo("inner-cannula-in-place", Told.At(1), false))).Says(Wide));
    }

    [Fact]
    public void A_spell_of_a_wide_catheter_ends_with_a_fitting_one_or_another_tube()
    {
        var history = Fit("1970-05-05", 14, 8.0m).With(Told.Pass(Told.At(60)));
        Assert.Equal((2, "open"), Finding(history));
        Assert.Equal((2, "cleared"), Finding(history.With(Told.Number("catheter-size", Told.At(61), 10m, "[Ch]"))));
        Assert.Equal((2, "cleared"), Finding(history.With(Told.Number("tube-inner-diameter", Told.At(61), 9.5m, "mm"))));

        static (int, string) Finding(History h) => (Assert.Single(Told.Judge(h).Of(Wide)).Count, Told.Judge(h).Of(Wide)[0].State);
    }

    [Fact]
    public void Without_tube_or_catheter_the_ratio_is_cannot_tell_once_for_the_line()
    {
        var report = Told.Judge(Told.Adult.With(Told.Pass(Told.At(0)), Told.Pass(Told.At(90))));
        Assert.Equal(2, Assert.Single(report.CannotTell, c => c.Check == Wide).Count);
    }

    private static History Fit(string born, int french, decimal mm) => Told.Born(born).With(
        Told.Number("tube-inner-diameter", Told.At(0), mm, "mm"), Told.Number("catheter-size", Told.At(5), french, "[Ch]"), Told.Pass(Told.At(5)));
}
