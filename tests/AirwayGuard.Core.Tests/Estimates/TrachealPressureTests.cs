using AirwayGuard.Core.Estimates;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Estimates;

/// <summary>The estimate against the benches it comes from, and nothing outside what they covered.</summary>
public sealed class TrachealPressureTests
{
    /// <summary>Nakstad, BMJ Open Respir Res 2017;4:e000176, table 1: tube mm, catheter Fr, applied and tracheal vacuum in cmH2O. Open suction, tube disconnected.</summary>
    public static TheoryData<double, double, double, double> Nakstad2017 => new()
    {
        { 9, 12, 382, 0.5 }, { 9, 12, 765, 1.5 }, { 9, 14, 382, 1 }, { 9, 14, 765, 2 }, { 9, 16, 382, 2 }, { 9, 16, 765, 3 },
        { 8, 12, 382, 1 }, { 8, 12, 765, 2 }, { 8, 14, 382, 2 }, { 8, 14, 765, 4 }, { 8, 16, 382, 3 }, { 8, 16, 765, 7 },
        { 7, 12, 382, 2 }, { 7, 12, 765, 5 }, { 7, 14, 382, 4 }, { 7, 14, 765, 10 }, { 7, 16, 382, 9 }, { 7, 16, 765, 23 },
    };

    [Theory]
    [MemberData(nameof(Nakstad2017))]
    public void A_value_of_the_bench_lies_within_the_stated_error(double tube, double catheter, double applied, double published)
    {
        var model = applied * (double)TrachealPressure.Share((decimal)(catheter / (3 * tube)));
        var estimate = TrachealPressure.Of((decimal)catheter, (decimal)tube, (decimal)applied, Unit.CmH2O)!;

        Assert.InRange(Math.Max(model / published, published / model), 1, (double)TrachealPressure.MostMiss);
        Assert.InRange((decimal)published, estimate.Low, estimate.High);
        Assert.InRange(estimate.About!.Value, estimate.Low, estimate.High);
    }

    [Fact]
    public void The_stated_error_is_no_larger_than_the_largest_miss_and_the_typical_miss_is_a_factor_of_1_2()
    {
        var misses = Nakstad2017.Select(row => row.Data).Select(one =>
        {
            var model = one.Item3 * (double)TrachealPressure.Share((decimal)(one.Item2 / (3 * one.Item1)));
            return Math.Max(model / one.Item4, one.Item4 / model);
        }).ToArray();

        Assert.Equal(18, misses.Length);
        Assert.Equal((double)TrachealPressure.MostMiss, misses.Max(), 0.005);
        Assert.Equal(1.2, Math.Exp(misses.Average(Math.Log)), 0.05);
    }

    // Vanner & Bick, Anaesthesia 2008;63:313-5: up to half the tube the trachea is not more than 2 mmHg below atmosphere.
    [Theory]
    [InlineData(12, 8, 200)]
    [InlineData(12, 8, 562)]
    [InlineData(12, 9, 562)]
    [InlineData(13.5, 9, 562)]
    public void Up_to_half_the_tube_it_is_not_more_than_2_mmHg(double catheter, double tube, double mmHg)
    {
        var estimate = TrachealPressure.Of((decimal)catheter, (decimal)tube, (decimal)mmHg, Unit.MmHg)!;

        Assert.InRange(Vacuum.ToMmHg(estimate.About ?? 0m, PressureEstimate.Unit), 0m, 2m);
    }

    // Kiraly, Pediatr Res 2008;64:29-33: proportional to the applied vacuum, 80 to 200 mmHg. Below 80 mmHg, and above the bench's 765 cmH2O, nothing.
    [Theory]
    [InlineData("80", Unit.MmHg, "4", "2", "7")]
    [InlineData("200", Unit.MmHg, "10", "5", "20")]
    [InlineData("281", Unit.MmHg, "15", "7", "30")]
    [InlineData("562", Unit.MmHg, "30", "15", "50")]
    public void It_is_proportional_to_the_applied_vacuum(string vacuum, Unit unit, string about, string low, string high)
    {
        var estimate = TrachealPressure.Of(16m, 7m, Of(vacuum), unit)!;

        Assert.Equal((Of(about), Of(low), Of(high)), (estimate.About, estimate.Low, estimate.High));
    }

    [Theory]
    [InlineData("12", "7", "80", Unit.MmHg, true)]
    [InlineData("12", "7", "79.9", Unit.MmHg, false)]
    [InlineData("12", "7", "10.66", Unit.Kilopascal, false)]
    [InlineData("12", "7", "-10.67", Unit.Kilopascal, true)]
    [InlineData("12", "7", "765", Unit.CmH2O, true)]
    [InlineData("12", "7", "765.1", Unit.CmH2O, false)]
    [InlineData("11.9", "7", "120", Unit.MmHg, false)]
    [InlineData("16", "7", "120", Unit.MmHg, true)]
    [InlineData("16.1", "9", "120", Unit.MmHg, false)]
    [InlineData("14", "6.9", "120", Unit.MmHg, false)]
    [InlineData("14", "9", "120", Unit.MmHg, true)]
    [InlineData("14", "9.1", "120", Unit.MmHg, false)]
    [InlineData("14", "8", "120", Unit.None, false)]
    [InlineData("14", "8", "120", Unit.Unknown, false)]
    public void Outside_what_the_benches_covered_there_is_none(string catheter, string tube, string vacuum, Unit unit, bool isCovered) =>
        Assert.Equal(isCovered, TrachealPressure.Of(Of(catheter), Of(tube), Of(vacuum), unit) is not null);

    [Fact]
    public void What_is_nearer_to_nothing_than_to_the_bench_s_finest_step_is_told_as_less_than_that()
    {
        var estimate = TrachealPressure.Of(12m, 9m, 80m, Unit.MmHg)!;

        Assert.Equal((null, 0m, 0.5m), (estimate.About, estimate.Low, estimate.High));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-0.5")]
    [InlineData("1")]
    public void A_share_is_one_of_a_catheter_that_lies_in_a_tube(string ratio) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TrachealPressure.Share(Of(ratio)));

    private static decimal Of(string number) => decimal.Parse(number, System.Globalization.CultureInfo.InvariantCulture);
}
