using System.Globalization;
using System.Runtime.CompilerServices;
using AirwayGuard.Core.Quantities;
using Xunit;

namespace AirwayGuard.Core.Tests.Quantities;

public sealed class FactValueTests
{
    [Theory]
    [InlineData("150.4")]
    [InlineData("-150.40")]
    [InlineData("0")]
    [InlineData("8.0")]
    [InlineData("0.000000000000000001")]
    [InlineData("9223372036854775807")]
    [InlineData("-9223372036854775807")]
    [InlineData("9.223372036854775807")]
    public void A_number_is_kept_as_charted(string text)
    {
        var charted = decimal.Parse(text, CultureInfo.InvariantCulture);
        Assert.True(FactValue.TryNumber(charted, Unit.MmHg, out var value, Comparator.AtMost, 7));
        Assert.Equal((charted, Math.Abs(charted), Unit.MmHg, Comparator.AtMost, 7), (value.Amount, value.Magnitude, value.Unit, value.Comparator, value.Symbol));
        Assert.True(value.IsNumber);
        Assert.Equal(charted == 0m ? 0 : charted.Scale, value.Scale);
    }

    [Theory]
    [InlineData("0.0000000000000000001")]
    [InlineData("9223372036854775808")]
    [InlineData("-9223372036854775808")]
    [InlineData("-9223372036854775809")]
    [InlineData("9.2233720368547758070")]
    [InlineData("79228162514264337593543950335")]
    [InlineData("7.9228162514264337593543950335")]
    public void A_number_of_too_many_digits_is_unreadable(string text)
    {
        Assert.False(FactValue.TryNumber(decimal.Parse(text, CultureInfo.InvariantCulture), Unit.MmHg, out var value));
        Assert.Equal(FactValue.Unreadable, value);
        Assert.False(value.IsNumber);
    }

    [Fact]
    public void Digits_and_scale_make_the_amount() => Assert.Equal(150.5m, FactValue.Number(1505, 1, Unit.MmHg).Amount);

    [Fact]
    public void Another_unit_leaves_the_number_as_it_is() =>
        Assert.Equal(FactValue.Number(20, 0, Unit.Kilopascal), FactValue.Number(20, 0, Unit.MmHg).InUnit(Unit.Kilopascal));

    [Fact]
    public void A_date_keeps_its_precision()
    {
        Assert.Equal((20260228L, (byte)8, ValueKind.Date), Parts(FactValue.Date(2026, 2, 28, 8)));
        Assert.Equal((20260101L, (byte)4, ValueKind.Date), Parts(FactValue.Date(2026, 1, 1, 4)));

        static (long, byte, ValueKind) Parts(FactValue v) => (v.Digits, v.Scale, v.Kind);
    }

    [Fact]
    public void Marks_are_told_apart_and_absent_is_the_default()
    {
        FactValue[] marks = [FactValue.Absent, FactValue.NotPerformed, FactValue.Yes, FactValue.No, FactValue.Text, FactValue.Unreadable, FactValue.Code(1), FactValue.Number(0, 0, Unit.None)];
        Assert.Equal(marks.Length, marks.Select(m => m.Kind).Distinct().Count());
        Assert.Equal(default, FactValue.Absent);
        Assert.Equal(16, Unsafe.SizeOf<FactValue>());
    }

    [Fact]
    public void A_value_never_prints_what_was_charted() =>
        Assert.DoesNotContain("150", FactValue.Number(150, 0, Unit.MmHg).ToString(), StringComparison.Ordinal);
}
