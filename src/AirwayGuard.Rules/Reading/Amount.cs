using System.Globalization;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Reading;

/// <summary>A decimal with its UCUM unit, as limits are written: <c>80 mm[Hg]</c>, <c>0.50</c>, <c>20 to 30 cm[H2O]</c>.</summary>
internal readonly record struct Amount(decimal Low, decimal High, Unit Unit)
{
    public const decimal Most = 1_000_000m;

    /// <summary>One amount in a unit of the measure's dimension; a fault otherwise.</summary>
    public static bool TryRead(TextNode node, Measure measure, bool range, Faults faults, out Amount amount)
    {
        amount = default;
        var text = node.Text.Trim();
        var (first, rest) = SplitAtSpace(text);
        var last = first;
        if (range)
        {
            (var to, rest) = SplitAtSpace(rest);
            (last, rest) = SplitAtSpace(rest);
            if (to != "to")
            {
                return Unreadable(node, faults, "Write a range, such as 20 to 30 cm[H2O].");
            }
        }

        if (!TryNumber(first, out var low) || !TryNumber(last, out var high))
        {
            return Unreadable(node, faults, null);
        }

        if (range && low >= high)
        {
            return Unreadable(node, faults, "The lower end of a range comes first and is smaller.");
        }

        if (!TryUnit(node, rest, measure, faults, out var unit))
        {
            return false;
        }

        if (MostOf(measure) is { } most && AsMeasured(high, unit, measure) > most)
        {
            faults.Add(
                Codes.LimitOutOfKind, node.At, $"The limit is {Words.Quote(text)}; {measure.Id} is {Words.Number(most)} {Units.Ucum(measure.Unit)} at most.".Replace(" 1 at most", " at most", StringComparison.Ordinal));
            return false;
        }

        if (IsImpossible(high, unit, measure))
        {
            faults.Add(
                Codes.LimitImpossible, node.At,
                $"The limit is {Words.Quote(text)}{InMmHg(high, unit)}; no vacuum is deeper than one atmosphere, {Words.Number(UnitDoubt.MostMmHg)} mm[Hg].",
                $"Allowed: 0 to {Words.Number(UnitDoubt.MostMmHg)} mm[Hg], or as much in another unit.");
            return false;
        }

        amount = new Amount(low, high, unit);
        return true;
    }

    // A catheter may be wider than its tube, if not twice as wide; no other share is more than the whole.
    private static decimal? MostOf(Measure measure) => (measure.Dimension, measure.Unit) switch
    {
        (Dimension.Fraction, Unit.Percent) => 100m,
        (Dimension.Fraction, _) => 2m,
        _ => null,
    };

    private static decimal AsMeasured(decimal amount, Unit unit, Measure measure) => (unit, measure.Unit) switch
    {
        (Unit.Percent, Unit.One) => amount / 100m,
        (Unit.One, Unit.Percent) => amount * 100m,
        _ => amount,
    };

    // Of the pressures only those of vacuum are measured in mm[Hg]: those of cuff and airway lie above ambient.
    private static bool IsImpossible(decimal amount, Unit unit, Measure measure) =>
        measure is { Dimension: Dimension.Pressure, Unit: Unit.MmHg } && Vacuum.ToMmHg(amount, unit) > UnitDoubt.MostMmHg;

    private static string InMmHg(decimal amount, Unit unit) =>
        unit == Unit.MmHg ? "" : $", {Words.Number(Math.Round(Vacuum.ToMmHg(amount, unit), 1))} mm[Hg]";

    /// <summary>A bare number from 0 to 1,000,000 with a dot.</summary>
    public static bool TryNumber(string text, out decimal number) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number) && number <= Most;

    public static (string Head, string Tail) SplitAtSpace(string text)
    {
        var space = text.IndexOf(' ', StringComparison.Ordinal);
        return space < 0 ? (text, "") : (text[..space], text[space..].Trim());
    }

    private static bool TryUnit(TextNode node, string written, Measure measure, Faults faults, out Unit unit)
    {
        // Only a ratio and a count read the same without a unit; of a percentage nobody could say whether 0.85 is 85 %.
        var mayBeBare = measure.Dimension == Dimension.Count || (measure.Dimension == Dimension.Fraction && measure.Unit == Unit.One);
        unit = written.Length == 0 && mayBeBare ? measure.Unit : Units.FromUcum(written);
        if (Units.TryDimension(unit, out var dimension) && dimension == measure.Dimension)
        {
            return true;
        }

        var meant = Units.FromText(written);
        var hint = written.Length == 0 ? "no unit"
            : unit == Unit.Unknown && meant is not (Unit.Unknown or Unit.None) ? $"{Words.Quote(written)}, in UCUM {Units.Ucum(meant)}"
            : $"the unit {Words.Quote(written)}";
        faults.Add(
            Codes.LimitUnitDoesNotFit, node.At, $"The limit has {hint}; {measure.Id} is measured in {Units.Ucum(measure.Unit)}.",
            $"Use {Units.Ucum(measure.Unit)} or another UCUM unit of the same kind.");
        return false;
    }

    private static bool Unreadable(TextNode node, Faults faults, string? allowed)
    {
        faults.Add(Codes.LimitUnreadable, node.At, $"The limit is {Words.Quote(node.Text)}.", allowed);
        return false;
    }
}
