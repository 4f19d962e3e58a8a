namespace AirwayGuard.Core.Quantities;

/// <summary>
/// A value exactly as charted: digits × 10^-scale in its own unit, or a code, or a mark. 16 bytes, no reference.
/// </summary>
/// <param name="Digits">Signed digits of a number; yyyymmdd of a date.</param>
/// <param name="Symbol">Index of the answer for a code; for a number the key of the source row's own code, 0 if none.</param>
/// <param name="Scale">Decimal places of <paramref name="Digits"/>, 0 to 18; of a date its precision (4, 6, 8).</param>
public readonly record struct FactValue(long Digits, int Symbol, byte Scale, ValueKind Kind, Unit Unit, Comparator Comparator)
{
    /// <summary>Most decimal places kept; a longer fraction is unreadable.</summary>
    public const byte MaxScale = 18;

    public static FactValue Absent => default;
    public static FactValue NotPerformed => new(0, 0, 0, ValueKind.NotPerformed, Unit.None, Comparator.Exactly);
    public static FactValue Yes => new(0, 0, 0, ValueKind.Yes, Unit.None, Comparator.Exactly);
    public static FactValue No => new(0, 0, 0, ValueKind.No, Unit.None, Comparator.Exactly);
    public static FactValue Text => new(0, 0, 0, ValueKind.Text, Unit.None, Comparator.Exactly);
    public static FactValue Unreadable => new(0, 0, 0, ValueKind.Unreadable, Unit.None, Comparator.Exactly);
    public static FactValue Code(int answer) => new(0, answer, 0, ValueKind.Code, Unit.None, Comparator.Exactly);

    /// <summary>A number in a unit, as written: <c>Number(1505, 1, Unit.MmHg)</c> is 150.5 mm[Hg].</summary>
    public static FactValue Number(long digits, byte scale, Unit unit, Comparator comparator = Comparator.Exactly, int rowCode = 0) =>
        new(digits, rowCode, scale, ValueKind.Number, unit, comparator);

    /// <summary>A number from a decimal; refuses what has more than 18 significant digits or places.</summary>
    public static bool TryNumber(decimal value, Unit unit, out FactValue number, Comparator comparator = Comparator.Exactly, int rowCode = 0)
    {
        number = Unreadable;
        var scale = value.Scale;
        if (scale > MaxScale)
        {
            return false;
        }

        for (var i = 0; i < scale; i++)
        {
            value *= 10m;
            if (value is > long.MaxValue or <= long.MinValue)
            {
                return false;
            }
        }

        if (value is > long.MaxValue or <= long.MinValue)
        {
            return false;
        }

        number = Number((long)value, scale, unit, comparator, rowCode);
        return true;
    }

    /// <summary>A calendar date; precision 4 (year), 6 (month) or 8 (day).</summary>
    public static FactValue Date(int year, int month, int day, byte precision) =>
        new((year * 10000L) + (month * 100) + day, 0, precision, ValueKind.Date, Unit.None, Comparator.Exactly);

    public bool IsNumber => Kind == ValueKind.Number;

    /// <summary>The number as charted, sign included.</summary>
    public decimal Amount => Digits == 0 ? 0m : new decimal((int)(Math.Abs(Digits) & 0xFFFFFFFF), (int)(Math.Abs(Digits) >> 32), 0, Digits < 0, Scale);

    /// <summary>The number without its sign: a vacuum is a depth below ambient, however it was written.</summary>
    public decimal Magnitude => Math.Abs(Amount);

    public FactValue InUnit(Unit unit) => this with { Unit = unit };

    /// <summary>Says the kind only: a charted value is patient data and must not reach a log by accident.</summary>
    public override string ToString() => $"FactValue({Kind})";
}
