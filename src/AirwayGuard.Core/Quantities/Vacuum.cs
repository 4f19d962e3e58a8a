namespace AirwayGuard.Core.Quantities;

/// <summary>
/// Vacuum depth below ambient, zero or more, exact. UCUM defines m[Hg] as 133.322 kPa, m[H2O] as 9.80665 kPa and the inch as
/// 2.54 cm, so each unit here is a whole number of micropascals.
/// </summary>
public static class Vacuum
{
    /// <summary>Conversion noise: a value charted in another unit and this near to a limit equals it. In mm[Hg].</summary>
    public const decimal ToleranceMmHg = 0.5m;

    private const decimal PerMmHg = 133_322_000m;

    /// <summary>Micropascals in one of the unit; 0 for what is not a unit of pressure.</summary>
    public static decimal MicropascalsPer(Unit unit) => unit switch
    {
        Unit.MmHg => PerMmHg,
        Unit.CmHg => 1_333_220_000m,
        Unit.InHg => 3_386_378_800m,
        Unit.CmH2O => 98_066_500m,
        Unit.Kilopascal => 1_000_000_000m,
        Unit.Millibar or Unit.Hectopascal => 100_000_000m,
        _ => 0m,
    };

    /// <summary>A pressure in another unit. Exact in micropascals; the quotient is rounded to 28 digits.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Either unit is not a unit of pressure.</exception>
    public static decimal Convert(decimal amount, Unit from, Unit to)
    {
        var (source, target) = (MicropascalsPer(from), MicropascalsPer(to));
        ArgumentOutOfRangeException.ThrowIfZero(source, nameof(from));
        ArgumentOutOfRangeException.ThrowIfZero(target, nameof(to));
        return from == to ? amount : amount * source / target;
    }

    /// <summary>The magnitude in mm[Hg].</summary>
    public static decimal ToMmHg(decimal amount, Unit from) => Convert(Math.Abs(amount), from, Unit.MmHg);
}
