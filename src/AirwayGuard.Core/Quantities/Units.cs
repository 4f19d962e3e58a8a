namespace AirwayGuard.Core.Quantities;

/// <summary>
/// The units known here, by their UCUM code and by the texts that charting systems print instead.
/// UCUM: The Unified Code for Units of Measure, version 2.1, tables of base and customary units.
/// </summary>
public static class Units
{
    private static readonly (Unit Unit, string Ucum, Dimension Dimension)[] Table =
    [
        (Unit.MmHg, "mm[Hg]", Dimension.Pressure), (Unit.CmH2O, "cm[H2O]", Dimension.Pressure),
        (Unit.Kilopascal, "kPa", Dimension.Pressure), (Unit.InHg, "[in_i'Hg]", Dimension.Pressure),
        (Unit.CmHg, "cm[Hg]", Dimension.Pressure), (Unit.Millibar, "mbar", Dimension.Pressure),
        (Unit.Hectopascal, "hPa", Dimension.Pressure),
        (Unit.French, "[Ch]", Dimension.Catheter), (Unit.Millimetre, "mm", Dimension.Length), (Unit.Centimetre, "cm", Dimension.Length),
        (Unit.Percent, "%", Dimension.Fraction), (Unit.One, "1", Dimension.Fraction), (Unit.Count, "{count}", Dimension.Count),
        (Unit.Second, "s", Dimension.Duration), (Unit.Minute, "min", Dimension.Duration), (Unit.Hour, "h", Dimension.Duration),
        (Unit.Day, "d", Dimension.Duration), (Unit.Week, "wk", Dimension.Duration), (Unit.Month, "mo", Dimension.Duration),
        (Unit.Millilitre, "mL", Dimension.Volume), (Unit.MillilitrePerKilogram, "mL/kg", Dimension.VolumePerWeight),
        (Unit.PerMinute, "/min", Dimension.Rate), (Unit.Kilogram, "kg", Dimension.Weight), (Unit.Gram, "g", Dimension.Weight),
    ];

    // Texts that stand for a code (common practice, no source): mmHg, mm Hg, cmH2O, inHg, cmHg, sec, min, cc, and what else is printed.
    private static readonly (string Text, Unit Unit)[] Texts =
    [
        ("mmHg", Unit.MmHg), ("mm Hg", Unit.MmHg), ("cmH2O", Unit.CmH2O), ("cm H2O", Unit.CmH2O), ("inHg", Unit.InHg), ("in Hg", Unit.InHg),
        ("cmHg", Unit.CmHg), ("cm Hg", Unit.CmHg), ("Fr", Unit.French), ("F", Unit.French), ("Ch", Unit.French), ("FG", Unit.French), ("French", Unit.French),
        ("sec", Unit.Second), ("secs", Unit.Second), ("second", Unit.Second), ("seconds", Unit.Second), ("mins", Unit.Minute), ("minutes", Unit.Minute),
        ("cc", Unit.Millilitre), ("ml", Unit.Millilitre), ("bpm", Unit.PerMinute), ("beats/min", Unit.PerMinute), ("breaths/min", Unit.PerMinute),
        ("percent", Unit.Percent), ("weeks", Unit.Week), ("days", Unit.Day), ("{passes}", Unit.Count), ("passes", Unit.Count), ("L", Unit.Unknown),
    ];

    /// <summary>The unit of a UCUM code (case matters in UCUM), or <see cref="Unit.Unknown"/>.</summary>
    public static Unit FromUcum(ReadOnlySpan<char> code)
    {
        foreach (var row in Table)
        {
            if (code.SequenceEqual(row.Ucum))
            {
                return row.Unit;
            }
        }

        // UCUM annotates the unity freely: {passes}, {count}.
        return code is ['{', .., '}'] ? Unit.Count : code.SequenceEqual("ml") ? Unit.Millilitre : Unit.Unknown;
    }

    /// <summary>The unit of a printed text: a UCUM code as it stands, else a known text, case ignored for texts. None for blank.</summary>
    public static Unit FromText(ReadOnlySpan<char> text)
    {
        text = text.Trim();
        if (text.IsEmpty)
        {
            return Unit.None;
        }

        var unit = FromUcum(text);
        if (unit != Unit.Unknown)
        {
            return unit;
        }

        foreach (var row in Texts)
        {
            if (text.Equals(row.Text, StringComparison.OrdinalIgnoreCase))
            {
                return row.Unit;
            }
        }

        return Unit.Unknown;
    }

    /// <summary>
    /// Both are known and they mean different things of one kind: a number in the one is not the same number in the other. A millibar
    /// is a hectopascal; a French size beside a length is another diameter.
    /// </summary>
    public static bool Differ(Unit one, Unit other) =>
        one != other && TryDimension(one, out var first) && TryDimension(other, out var second)
        && (first == second
            ? first != Dimension.Pressure || Vacuum.MicropascalsPer(one) != Vacuum.MicropascalsPer(other)
            : (first, second) is (Dimension.Catheter, Dimension.Length) or (Dimension.Length, Dimension.Catheter));

    /// <summary>The units of one dimension, in the table's order.</summary>
    public static IEnumerable<Unit> Of(Dimension dimension) => Table.Where(row => row.Dimension == dimension).Select(row => row.Unit);

    /// <summary>The printed texts, beside its UCUM code, that are read as a unit.</summary>
    public static IEnumerable<string> TextsOf(Unit unit) => Texts.Where(row => row.Unit == unit).Select(row => row.Text);

    /// <summary>The UCUM code; empty for <see cref="Unit.None"/>, <c>?</c> for <see cref="Unit.Unknown"/>.</summary>
    public static string Ucum(Unit unit)
    {
        foreach (var row in Table)
        {
            if (row.Unit == unit)
            {
                return row.Ucum;
            }
        }

        return unit == Unit.None ? "" : "?";
    }

    public static bool TryDimension(Unit unit, out Dimension dimension)
    {
        foreach (var row in Table)
        {
            if (row.Unit == unit)
            {
                dimension = row.Dimension;
                return true;
            }
        }

        dimension = default;
        return false;
    }

    public static bool IsPressure(Unit unit) => unit is >= Unit.MmHg and <= Unit.Hectopascal;
}
