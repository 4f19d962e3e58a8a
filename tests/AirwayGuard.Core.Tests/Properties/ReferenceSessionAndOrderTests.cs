using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>Blood-stained sessions, orders by the clock and the age bands, told to the reference judge.</summary>
public sealed class ReferenceSessionAndOrderTests
{
    private const string Blood = "blood-stained-secretions-trend", Clock = "suction-ordered-by-clock";

    [Theory]
    // "streaked or frank in 2 of the last 3 sessions with an appearance, or frank once | moderate; high if frank"
    [InlineData("blood-streaked", 0, null)]
    [InlineData("blood-streaked,clear,blood-streaked", 1, "moderate")]
    [InlineData("blood-streaked,clear,clear,blood-streaked", 0, null)]
    [InlineData("blood-streaked,,clear,blood-streaked", 1, "moderate")]
    [InlineData("frank-blood", 1, "high")]
    [InlineData("blood-streaked,frank-blood", 1, "high")]
    [InlineData("clear,white,yellow", 0, null)]
    public void Blood_in_two_of_three_sessions_or_frank_once_is_a_trend(string sessions, int count, string? severity)
    {
        var finding = Told.Judge(Sessions(sessions)).Of(Blood).SingleOrDefault();
        Assert.Equal((count, severity), (finding?.Count ?? 0, finding?.Severity));
    }

    [Fact]
    public void Three_clear_sessions_end_the_trend()
    {
        Assert.Equal("cleared", Assert.Single(Told.Judge(Sessions("blood-streaked,blood-streaked,clear,clear,clear")).Of(Blood)).State);
        Assert.Equal("open", Assert.Single(Told.Judge(Sessions("blood-streaked,blood-streaked,clear,clear")).Of(Blood)).State);
    }

    [Fact]
    public void An_appearance_is_matched_whole_never_by_part()
    {
        var rows = Told.Adult.With(Told.Pass(Told.At(0)), Told.Row("secretion-appearance", Told.At(0), new Charted.Words("no frank-blood")));
        Assert.Equal("cannot-tell", Told.Judge(rows).Says(Blood));
        Assert.Equal("breach", Told.Judge(rows.With(Told.Row("secretion-appearance", Told.At(0), new Charted.Words(" Frank-Blood "), "other"))).Says(Blood));
    }

    [Theory]
    [InlineData(1, null, "active", "order", "breach")]
    [InlineData(1, false, "active", "order", "breach")]
    [InlineData(1, true, "active", "order", "pass")]
    [InlineData(null, true, "active", "order", "pass")]
    [InlineData(null, null, "active", "order", "cannot-tell")]
    [InlineData(1, null, "on-hold", "order", "pass")]
    [InlineData(1, null, "active", "plan", "pass")]
    [InlineData(1, null, "active", "filler-order", "breach")]
    public void A_timing_without_need_is_suction_by_the_clock(int? frequency, bool? asNeeded, string status, string intent, string expected)
    {
        var order = new SuctionOrder("o1", Told.At(0), status, intent, "e1", frequency, frequency is null ? null : 4m, frequency is null ? null : "h", asNeeded, false, null, null);
        Assert.Equal(expected, Told.Judge(Told.Adult with { Orders = [order] }).Says(Clock));
        Assert.Equal("pass", Told.Judge(Told.Adult with { Orders = [order with { DoNotPerform = true }] }).Says(Clock));
    }

    [Theory]
    [InlineData(120, null, "breach")]
    [InlineData(15, "mm[Hg]", "breach")]
    [InlineData(120, "mm[Hg]", "pass")]
    public void An_ordered_vacuum_may_have_a_doubtful_unit(int amount, string? unit, string expected)
    {
        var order = new SuctionOrder("o1", Told.At(0), "active", "order", "e1", null, null, null, true, false, new(amount, unit), null);
        Assert.Equal(expected, Told.Judge(Told.Adult with { Orders = [order] }).Says("vacuum-unit-doubtful"));
    }

    [Theory]
    // "Neonate day 0 to 28 inclusive; infant to the day before the first birthday; child to the day before the 18th"
    [InlineData("2026-01-01", "2026-01-01", null, "neonate")]
    [InlineData("2026-01-01", "2026-01-29", null, "neonate")]
    [InlineData("2026-01-01", "2026-01-30", null, "infant")]
    [InlineData("2025-01-01", "2025-12-31", null, "infant")]
    [InlineData("2025-01-01", "2026-01-01", null, "child")]
    [InlineData("2008-01-01", "2025-12-31", null, "child")]
    [InlineData("2008-01-01", "2026-01-01", null, "adult")]
    // "29 February counts as 1 March"
    [InlineData("2024-02-29", "2025-02-28", null, "infant")]
    [InlineData("2024-02-29", "2025-03-01", null, "child")]
    [InlineData("2008-02-29", "2026-02-28", null, "child")]
    [InlineData("2008-02-29", "2026-03-01", null, "adult")]
    // "below 37 wk, until the second birthday, age counts from birth date + (40 wk − that age); negative is neonate"
    [InlineData("2026-01-01", "2026-02-20", 210, "neonate")]
    [InlineData("2026-01-01", "2026-04-09", 210, "neonate")]
    [InlineData("2026-01-01", "2026-04-10", 210, "infant")]
    [InlineData("2026-01-01", "2026-01-30", 259, "infant")]
    [InlineData("2024-01-01", "2025-01-15", 210, "infant")]
    [InlineData("2024-01-01", "2026-01-01", 210, "child")]
    // A partial date: every band still possible; a birth to come leaves none.
    [InlineData("2008", "2026-06-01", null, "unknown")]
    [InlineData("2007", "2026-06-01", null, "adult")]
    [InlineData("2026-06", "2026-06-15", null, "neonate")]
    [InlineData("2026-06-16", "2026-06-15", null, "unknown")]
    [InlineData(null, "2026-06-15", null, "unknown")]
    public void A_band_is_counted_in_calendar_days(string? born, string day, int? gestation, string band) =>
        Assert.Equal(band, ReferenceAge.Printed(ReferenceAge.Possible(born, gestation, DateTimeOffset.Parse(day + "T12:00:00Z", System.Globalization.CultureInfo.InvariantCulture))));

    [Fact]
    public void The_day_of_an_event_is_the_one_at_its_own_offset()
    {
        var instant = new DateTimeOffset(2026, 1, 29, 23, 30, 0, TimeSpan.Zero);
        Assert.Equal(["neonate"], ReferenceAge.Possible("2026-01-01", null, instant));
        Assert.Equal(["infant"], ReferenceAge.Possible("2026-01-01", null, instant.ToOffset(TimeSpan.FromHours(1))));
    }

    [Fact]
    public void Of_several_versions_the_last_saved_counts_and_an_error_is_never_charted()
    {
        var high = Told.Vacuum(Told.At(0), 200m);
        Assert.Equal("pass", Told.Judge(Told.Adult.With(high with { Value = new Charted.Number(120m, "mm[Hg]"), Saved = Told.At(9) }, high)).Says("vacuum-above-ceiling"));
        Assert.Equal("pass", Told.Judge(Told.Adult.With(high, high with { Status = "entered-in-error", Saved = Told.At(9) })).Says("vacuum-above-ceiling"));
    }

    [Theory]
    // "gaps under 1 h do not break it"
    [InlineData(59, 1)]
    [InlineData(60, 0)]
    public void An_hour_without_airway_ends_the_episode(int gap, int trends)
    {
        var history = Sessions("blood-streaked,blood-streaked").With(
            Told.Answer("airway-type", Told.At(-10), "tracheal-tube"), Told.Answer("airway-type", Told.At(10), "none"), Told.Answer("airway-type", Told.At(10 + gap), "tracheal-tube"));
        Assert.Equal(trends, Told.Judge(history).Of(Blood).Count);
    }

    private static History Sessions(string appearances) => Told.Adult.With(
    [
        .. appearances.Split(',').SelectMany((appearance, n) => appearance.Length == 0
            ? new[] { Told.Pass(Told.At(120 * n)) }
            : [Told.Pass(Told.At(120 * n)), Told.Answer("secretion-appearance", Told.At(120 * n), appearance)]),
    ]);
}
