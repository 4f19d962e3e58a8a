using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Quantities;

public sealed class UnitsTests
{
    public static TheoryData<Unit> All => [.. Enum.GetValues<Unit>().Where(u => u is not (Unit.None or Unit.Unknown))];

    [Theory]
    [MemberData(nameof(All))]
    public void Each_unit_has_a_ucum_code_that_leads_back_to_it(Unit unit)
    {
        Assert.Equal(unit, Units.FromUcum(Units.Ucum(unit)));
        Assert.Equal(unit, Units.FromText(" " + Units.Ucum(unit) + " "));
        Assert.True(Units.TryDimension(unit, out _));
    }

    [Theory]
    // As units are printed in charts.
    [InlineData("mmHg", Unit.MmHg)]
    [InlineData("mm Hg", Unit.MmHg)]
    [InlineData("cmH2O", Unit.CmH2O)]
    [InlineData("inHg", Unit.InHg)]
    [InlineData("cmHg", Unit.CmHg)]
    [InlineData("sec", Unit.Second)]
    [InlineData("min", Unit.Minute)]
    [InlineData("cc", Unit.Millilitre)]
    [InlineData("Fr", Unit.French)]
    [InlineData("F", Unit.French)]
    [InlineData("Ch", Unit.French)]
    [InlineData("FG", Unit.French)]
    [InlineData("MMHG", Unit.MmHg)]
    [InlineData("mm[Hg]", Unit.MmHg)]
    [InlineData("", Unit.None)]
    [InlineData("  ", Unit.None)]
    // Torr has no UCUM code and is none of the listed units; litres are never millilitres.
    [InlineData("Torr", Unit.Unknown)]
    [InlineData("psi", Unit.Unknown)]
    [InlineData("L", Unit.Unknown)]
    [InlineData("mm", Unit.Millimetre)]
    [InlineData("Size 8", Unit.Unknown)]
    public void A_printed_text_is_read_as_its_code(string text, Unit unit) => Assert.Equal(unit, Units.FromText(text));

    [Theory]
    // Case matters in UCUM, and a display string is not a code.
    [InlineData("mmHg", Unit.Unknown)]
    [InlineData("KPA", Unit.Unknown)]
    [InlineData("Mbar", Unit.Unknown)]
    [InlineData("kPa", Unit.Kilopascal)]
    [InlineData("[in_i'Hg]", Unit.InHg)]
    [InlineData("{passes}", Unit.Count)]
    [InlineData("ml", Unit.Millilitre)]
    [InlineData("", Unit.Unknown)]
    public void A_code_is_read_exactly(string code, Unit unit) => Assert.Equal(unit, Units.FromUcum(code));

    [Fact]
    public void Only_pressures_are_pressures()
    {
        foreach (var unit in Enum.GetValues<Unit>())
        {
            Assert.Equal(Vacuum.MicropascalsPer(unit) != 0m, Units.IsPressure(unit));
            Assert.Equal(Units.IsPressure(unit), Units.TryDimension(unit, out var dimension) && dimension == Dimension.Pressure);
        }
    }

    [Fact]
    public void No_unit_and_an_unknown_one_have_no_dimension()
    {
        Assert.Equal(("", "?"), (Units.Ucum(Unit.None), Units.Ucum(Unit.Unknown)));
        Assert.False(Units.TryDimension(Unit.None, out _));
        Assert.False(Units.TryDimension(Unit.Unknown, out _));
    }

    [Theory]
    [InlineData(Unit.MmHg, Unit.Kilopascal, true)]
    [InlineData(Unit.Hectopascal, Unit.Millibar, false)]
    [InlineData(Unit.MmHg, Unit.MmHg, false)]
    [InlineData(Unit.Second, Unit.Minute, true)]
    [InlineData(Unit.Gram, Unit.Kilogram, true)]
    [InlineData(Unit.French, Unit.Millimetre, true)]
    [InlineData(Unit.Millimetre, Unit.MmHg, false)]
    [InlineData(Unit.Minute, Unit.PerMinute, false)]
    [InlineData(Unit.None, Unit.MmHg, false)]
    [InlineData(Unit.Unknown, Unit.MmHg, false)]
    public void Two_units_differ_where_one_number_means_two_things_of_one_kind(Unit one, Unit other, bool differ)
    {
        Assert.Equal(differ, Units.Differ(one, other));
        Assert.Equal(differ, Units.Differ(other, one));
    }
}
