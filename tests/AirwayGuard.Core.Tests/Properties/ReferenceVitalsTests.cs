using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Core.Tests.Properties;

/// <summary>The reference on what is charted around a pass.</summary>
public sealed class ReferenceVitalsTests
{
    private const string Missing = "vitals-missing-around-pass", Desaturation = "desaturation-with-suction", HeartRate = "heart-rate-event-with-suction";

    [Theory]
    [InlineData(-5, 5, 8, "pass")]
    [InlineData(-5, 5, 9, "breach")]
    [InlineData(-6, 5, 8, "breach")]
    public void Vital_signs_within_five_minutes_before_and_after_are_complete(int before, int after, int seconds, string says)
    {
        var history = Around(98m, 97m, 80m, Told.At(10 + before), Told.At(10 + after, seconds));
        Assert.Equal(says, Told.Judge(history).Says(Missing));
    }

    [Theory]
    [InlineData(95, 90, "breach")]
    [InlineData(94, 90, "pass")]
    [InlineData(91, 89, "breach")]
    [InlineData(89, 88, "pass")]
    public void A_drop_of_five_or_a_fall_below_ninety_is_a_desaturation(int before, int after, string says) =>
        Assert.Equal(says, Told.Judge(Around(before, after, 80m, Told.At(9), Told.At(11))).Says(Desaturation));

    [Fact]
    public void Without_a_saturation_after_it_nobody_can_tell_unless_a_reaction_is_charted()
    {
        Assert.Equal("cannot-tell", Told.Judge(Told.Adult.With(Told.Pass(Told.At(10)))).Says(Desaturation));
        Assert.Equal("pass", Told.Judge(Told.Adult.With(Told.Pass(Told.At(10)), Told.Answer("suction-reaction", Told.At(10), "none"))).Says(Desaturation));
        Assert.Equal("breach", Told.Judge(Told.Adult.With(Told.Pass(Told.At(10)), Told.Answer("suction-reaction", Told.At(10), "desaturation"))).Says(Desaturation));
        Assert.Equal("cannot-tell", Told.Judge(Told.Adult.With(Told.Pass(Told.At(10)), Told.Number("spo2", Told.At(11), 95m, "%"))).Says(Desaturation));
    }

    [Theory]
    [InlineData("1970-05-05", 49, "breach")]
    [InlineData("1970-05-05", 50, "pass")]
    [InlineData("1970-05-05", 150, "pass")]
    [InlineData("1970-05-05", 151, "breach")]
    [InlineData("2026-02-20", 99, "breach")]
    [InlineData("2026-02-20", 100, "pass")]
    [InlineData("2020-02-20", 20, "pass")]
    public void A_heart_rate_beyond_the_limits_of_its_age_is_an_event(string birth, int rate, string says) =>
        Assert.Equal(says, Told.Judge(Told.Born(birth).With(Told.Pass(Told.At(10)), Told.Number("heart-rate", Told.At(11), rate, "/min"))).Says(HeartRate));

    private static History Around(decimal before, decimal after, decimal rate, DateTimeOffset from, DateTimeOffset to) => Told.Adult.With(
        Told.Pass(Told.At(10)),
        Told.Number("spo2", from, before, "%"), Told.Number("spo2", to, after, "%"),
        Told.Number("heart-rate", from, rate, "/min"), Told.Number("heart-rate", to, rate, "/min"));
}
