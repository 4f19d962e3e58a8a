using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Quantities;

public sealed class FractionsAndDurationsTests
{
    [Theory]
    // 0.21 to 1 is a fraction, 21 to 100 a percentage, between them is doubtful.
    [InlineData(0.21, 0.21)]
    [InlineData(1.0, 1.0)]
    [InlineData(21, 0.21)]
    [InlineData(40, 0.40)]
    [InlineData(100.0, 1.0)]
    // A published national example prints 0.3 with the unit %.
    [InlineData(0.3, 0.3)]
    [InlineData(0.2, null)]
    [InlineData(1.01, null)]
    [InlineData(20.9, null)]
    [InlineData(100.1, null)]
    [InlineData(0, null)]
    [InlineData(-40, null)]
    public void Inspired_oxygen_is_a_fraction_a_percentage_or_doubtful(double charted, double? fraction)
    {
        Assert.Equal(fraction is not null, Fractions.TryInspiredOxygen((decimal)charted, out var read));
        Assert.Equal((decimal)(fraction ?? 0), read);
    }

    [Theory]
    [InlineData(15, Unit.Second, 15)]
    [InlineData(0.25, Unit.Minute, 15)]
    [InlineData(2, Unit.Hour, 7200)]
    [InlineData(7, Unit.Day, 604800)]
    [InlineData(1, Unit.Week, 604800)]
    [InlineData(-1, Unit.Minute, -60)]
    public void A_duration_is_seconds(double amount, Unit unit, double seconds)
    {
        Assert.True(Durations.TrySeconds((decimal)amount, unit, out var read));
        Assert.Equal((decimal)seconds, read);
    }

    [Theory]
    [InlineData(Unit.None)]
    [InlineData(Unit.Unknown)]
    [InlineData(Unit.Percent)]
    [InlineData(Unit.Month)]
    public void What_is_no_exact_duration_is_refused(Unit unit)
    {
        Assert.False(Durations.TrySeconds(5m, unit, out var read));
        Assert.Equal(0m, read);
    }
}
