using AirwayGuard.Core.Quantities;
using Fhir.Metrics;
using Xunit;
using Unit = AirwayGuard.Core.Quantities.Unit;

namespace AirwayGuard.Core.Tests.Quantities;

public sealed class VacuumTests
{
    private const string Ucum = "http://unitsofmeasure.org";

    private static readonly Unit[] Pressures = [Unit.MmHg, Unit.Kilopascal, Unit.CmH2O, Unit.InHg, Unit.CmHg, Unit.Millibar, Unit.Hectopascal];

    public static TheoryData<Unit, Unit> Pairs =>
        new(Pressures.SelectMany(from => Pressures.Select(to => (from, to))));

    // Oracle: the UCUM tables inside Fhir.Metrics 1.4.1. Only its TryConvertTo is asked; its comparison is wrong.
    [Theory]
    [MemberData(nameof(Pairs))]
    public void Every_pair_of_pressure_units_converts_as_the_ucum_library_does(Unit from, Unit to)
    {
        foreach (var amount in new[] { 1m, 20m, 120m, 150m, 760m })
        {
            Assert.True(FhirMetricService.Instance.Value.TryConvertTo((amount, Units.Ucum(from), Ucum), Units.Ucum(to), out var oracle));
            var expected = oracle!.Value.Item1;
            Assert.InRange(Vacuum.Convert(amount, from, to), expected * (1m - 0.000001m), expected * (1m + 0.000001m));
        }
    }

    // UCUM 2.1: m[Hg] = 133.322 kPa, m[H2O] = 9.80665 kPa, [in_i] = 2.54 cm, bar = 100 kPa; so in pascals:
    [Theory]
    [InlineData(Unit.MmHg, 133.322)]
    [InlineData(Unit.Kilopascal, 1000)]
    [InlineData(Unit.CmH2O, 98.0665)]
    [InlineData(Unit.InHg, 3386.3788)]
    [InlineData(Unit.CmHg, 1333.22)]
    [InlineData(Unit.Millibar, 100)]
    [InlineData(Unit.Hectopascal, 100)]
    [InlineData(Unit.Millimetre, 0)]
    [InlineData(Unit.None, 0)]
    [InlineData(Unit.Unknown, 0)]
    public void The_factors_are_exact(Unit unit, double pascals) => Assert.Equal((decimal)pascals * 1_000_000m, Vacuum.MicropascalsPer(unit));

    // Computed from UCUM's definitions; the pairs are those that vacuum policies print (NSW ACI 2014: 150 mmHg = 20 kPa).
    [Theory]
    [InlineData(60, 7.999, 81.6, 2.362)]
    [InlineData(80, 10.666, 108.8, 3.150)]
    [InlineData(100, 13.332, 136.0, 3.937)]
    [InlineData(120, 15.999, 163.1, 4.724)]
    [InlineData(150, 19.998, 203.9, 5.906)]
    [InlineData(200, 26.664, 271.9, 7.874)]
    [InlineData(300, 39.997, 407.9, 11.811)]
    [InlineData(500, 66.661, 679.8, 19.685)]
    public void Printed_millimetres_of_mercury_read_the_same_in_the_other_units(double mmHg, double kPa, double cmH2O, double inHg)
    {
        Assert.Equal((decimal)kPa, Math.Round(Vacuum.Convert((decimal)mmHg, Unit.MmHg, Unit.Kilopascal), 3));
        Assert.Equal((decimal)cmH2O, Math.Round(Vacuum.Convert((decimal)mmHg, Unit.MmHg, Unit.CmH2O), 1));
        Assert.Equal((decimal)inHg, Math.Round(Vacuum.Convert((decimal)mmHg, Unit.MmHg, Unit.InHg), 3));
    }

    [Theory]
    [InlineData(8, Unit.Kilopascal, 60.005)]
    [InlineData(10, Unit.Kilopascal, 75.006)]
    [InlineData(13, Unit.Kilopascal, 97.508)]
    [InlineData(16, Unit.Kilopascal, 120.010)]
    [InlineData(20, Unit.Kilopascal, 150.013)]
    [InlineData(80, Unit.Kilopascal, 600.051)]
    [InlineData(12, Unit.InHg, 304.8)]
    [InlineData(19, Unit.InHg, 482.6)]
    [InlineData(10, Unit.InHg, 254.0)]
    [InlineData(10, Unit.CmHg, 100)]
    // A national tracheostomy teaching page (ICST 2020) prints 20 cmH2O where 20 kPa is the usual figure.
    [InlineData(20, Unit.CmH2O, 14.711)]
    [InlineData(30, Unit.CmH2O, 22.067)]
    // Newborn resuscitation texts give 130 cmH2O for about 100 mmHg.
    [InlineData(130, Unit.CmH2O, 95.623)]
    public void Charted_units_read_as_millimetres_of_mercury(double amount, Unit unit, double mmHg)
    {
        Assert.Equal((decimal)mmHg, Math.Round(Vacuum.ToMmHg((decimal)amount, unit), 3));
        Assert.Equal((decimal)mmHg, Math.Round(Vacuum.ToMmHg((decimal)-amount, unit), 3));
    }

    [Fact]
    public void Twenty_and_sixteen_kilopascals_lie_within_the_tolerance_of_their_limits()
    {
        Assert.InRange(Vacuum.ToMmHg(20m, Unit.Kilopascal) - 150m, 0m, Vacuum.ToleranceMmHg);
        Assert.InRange(Vacuum.ToMmHg(16m, Unit.Kilopascal) - 120m, 0m, Vacuum.ToleranceMmHg);
        Assert.Equal(0.5m, Vacuum.ToleranceMmHg);
    }

    [Fact]
    public void The_same_unit_is_left_as_it_is() => Assert.Equal(0.1234567890123456789m, Vacuum.Convert(0.1234567890123456789m, Unit.InHg, Unit.InHg));

    [Theory]
    [InlineData(Unit.Percent, Unit.MmHg)]
    [InlineData(Unit.MmHg, Unit.None)]
    public void What_is_no_pressure_is_refused(Unit from, Unit to) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Vacuum.Convert(1m, from, to));
}
