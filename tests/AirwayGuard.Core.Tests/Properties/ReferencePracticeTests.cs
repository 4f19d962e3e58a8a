using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>The reference on oxygen, depth, saline and what is advised.</summary>
public sealed class ReferencePracticeTests
{
    private const string Saline = "saline-without-reason", Deep = "inserted-too-deep", Returned = "oxygen-not-returned", Indication = "no-indication-charted";

    [Theory]
    [InlineData(24, 0, "cleared")]
    [InlineData(24, 1, "open")]
    public void A_reason_within_a_day_clears_saline_without_one(int hours, int seconds, string state)
    {
        var history = Told.Adult.With(
            Told.Pass(Told.At(10)), Told.Number("saline-instilled", Told.At(10), 2m, "mL"), Told.Answer("allowance-reason", Told.At((hours * 60) + 10, seconds), "emergency"));
        var found = Assert.Single(Told.Judge(history).Of(Saline));
        Assert.Equal(state, found.State);
        Assert.Equal((2m, "mL"), (found.Value, found.Unit));
    }

    [Fact]
    public void A_reason_in_the_session_lets_saline_pass()
    {
        var history = Told.Adult.With(
            Told.Pass(Told.At(10)), Told.YesNo("saline-instilled", Told.At(10), true), Told.Pass(Told.At(12)), Told.Answer("secretion-consistency", Told.At(12), "thick"));
        Assert.Equal("pass", Told.Judge(history).Says(Saline));
    }

    [Theory]
    [InlineData("1970-05-05", 33, true, "pass")]
    [InlineData("1970-05-05", 33.1, true, "breach")]
    [InlineData("2026-02-20", 32, true, "pass")]
    [InlineData("2026-02-20", 32.1, true, "breach")]
    [InlineData("1970-05-05", 31, false, "pass")]
    [InlineData("1970-05-05", 31.1, false, "cannot-tell")]
    public void A_catheter_goes_so_far_beyond_tube_and_adapter(string birth, double depth, bool adapter, string says)
    {
        var history = Told.Born(birth).With(
            Told.Number("tube-inner-diameter", Told.At(0), 8m, "mm"), Told.Number("tube-length", Told.At(1), 30m, "cm"), Told.Pass(Told.At(10)),
            Told.Number("insertion-depth", Told.At(10), (decimal)depth, "cm"));
        history = adapter ? history.With(Told.Number("adapter-length", Told.At(1), 2m, "cm")) : history;
        Assert.Equal(says, Told.Judge(history).Says(Deep));
    }

    [Theory]
    [InlineData(10, 8, "cannot-tell")]
    [InlineData(10, 9, "breach")]
    [InlineData(120, 8, "breach")]
    [InlineData(120, 9, "cannot-tell")]
    public void Oxygen_still_high_later_than_ten_minutes_has_not_returned(int minutes, int seconds, string says)
    {
        var history = Told.Adult.With(
            Told.Number("fio2", Told.At(0), 40m, "%"), Told.Pass(Told.At(10)), Told.Number("fio2", Told.At(10 + minutes, seconds), 43m, "%"));
        Assert.Equal(says, Told.Judge(history).Says(Returned));
    }

    [Theory]
    [InlineData("per protocol, q4h", "breach")]
    [InlineData("Routine", "breach")]
    [InlineData("rattling", "pass")]
    public void Words_that_say_only_when_are_no_indication(string words, string says) =>
        Assert.Equal(says, Told.Judge(Told.Adult.With(Told.Pass(Told.At(10)), Told.Row("suction-indication", Told.At(10), new Charted.Words(words)))).Says(Indication));

    [Theory]
    [InlineData(10, 40, "breach", "cm[H2O]")]
    [InlineData(9.9, 60, "breach", "1")]
    [InlineData(9.9, 59, "pass", null)]
    public void Open_suction_is_advised_against_at_high_pressure_or_oxygen(double peep, int oxygen, string says, string? unit)
    {
        var report = Told.Judge(Told.Adult.With(
            Told.Number("peep", Told.At(0), (decimal)peep, "cm[H2O]"), Told.Number("fio2", Told.At(0), oxygen, "%"), Told.Pass(Told.At(10)), Told.Answer("suction-system", Told.At(10), "open")));
        Assert.Equal(says, report.Says("open-suction-where-closed-advised"));
        Assert.Equal(unit, report.Of("open-suction-where-closed-advised").Select(f => f.Unit).SingleOrDefault());
    }

    [Theory]
    [InlineData(20, "cm[H2O]", "pass")]
    [InlineData(19.9, "cm[H2O]", "breach")]
    [InlineData(30.1, "cm[H2O]", "breach")]
    [InlineData(22.4, "mm[Hg]", "pass")]
    public void A_cuff_is_kept_from_twenty_to_thirty(double pressure, string unit, string says) =>
        Assert.Equal(says, Told.Judge(Told.Adult.With(Told.Number("tube-inner-diameter", Told.At(0), 8m, "mm"), Told.Number("cuff-pressure", Told.At(5), (decimal)pressure, unit))).Says("cuff-pressure-out-of-range"));

    [Fact]
    public void A_pass_against_an_order_not_to_suction_is_found()
    {
        SuctionOrder Order(string status, bool not) => new("o", Told.At(5), status, "order", null, null, null, null, null, not, null, null);
        History With(params SuctionOrder[] orders) => Told.Adult.With(Told.Pass(Told.At(10))) with { Orders = [.. orders] };
        const string check = "suctioned-despite-order-not-to";
        Assert.Equal("breach", Told.Judge(With(Order("active", true))).Says(check));
        Assert.Equal("breach", Told.Judge(With(Order("on-hold", false))).Says(check));
        Assert.Equal("pass", Told.Judge(With(Order("on-hold", false), Order("active", false) with { Id = "p" })).Says(check));
        Assert.Equal("pass", Told.Judge(With(Order("active", true) with { Authored = Told.At(10) })).Says(check));
    }
}
