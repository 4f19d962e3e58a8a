using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Reading;

/// <summary>Which of two limits fewer values pass.</summary>
internal static class LimitOrder
{
    /// <summary>True where both are ceilings, both floors, or both ranges.</summary>
    public static bool SameDirection(Comparison one, Comparison other) => Direction(one) != 0 && Direction(one) == Direction(other);

    /// <summary>True where values pass <paramref name="other"/> that breach <paramref name="limit"/>. Both run the same way.</summary>
    public static bool IsStricter(Limit limit, Limit other)
    {
        var (low, high) = (Scaled(limit.Low, limit.Unit), Scaled(limit.High, limit.Unit));
        var (otherLow, otherHigh) = (Scaled(other.Low, other.Unit), Scaled(other.High, other.Unit));
        if (IsWithinConversion(limit, other))
        {
            // A reading in another unit this near to a limit equals it: so does a limit in another unit.
            (otherLow, otherHigh) = (low, high);
        }

        return Direction(limit.Comparison) switch
        {
            1 => low < otherLow || (low == otherLow && limit.Comparison == Comparison.AtOrAbove && other.Comparison == Comparison.Above),
            -1 => low > otherLow || (low == otherLow && limit.Comparison == Comparison.AtOrBelow && other.Comparison == Comparison.Below),
            _ => low > otherLow || high < otherHigh,
        };
    }

    private static bool IsWithinConversion(Limit limit, Limit other) =>
        limit.Unit != other.Unit && Units.IsPressure(limit.Unit) && Units.IsPressure(other.Unit)
        && Math.Abs(Vacuum.ToMmHg(limit.Low, limit.Unit) - Vacuum.ToMmHg(other.Low, other.Unit)) <= Vacuum.ToleranceMmHg
        && Math.Abs(Vacuum.ToMmHg(limit.High, limit.Unit) - Vacuum.ToMmHg(other.High, other.Unit)) <= Vacuum.ToleranceMmHg;

    private static int Direction(Comparison comparison) => comparison switch
    {
        Comparison.Above or Comparison.AtOrAbove => 1,
        Comparison.Below or Comparison.AtOrBelow => -1,
        Comparison.Outside => 2,
        _ => 0,
    };

    /// <summary>In the smallest unit of the dimension; a month is UCUM's mean Julian month of 30.4375 days.</summary>
    private static decimal Scaled(decimal amount, Unit unit)
    {
        if (Units.IsPressure(unit))
        {
            return amount * Vacuum.MicropascalsPer(unit);
        }

        if (Durations.TrySeconds(amount, unit, out var seconds))
        {
            return seconds;
        }

        return unit switch
        {
            Unit.Month => amount * 2_629_800m,
            Unit.Centimetre => amount * 10m,
            Unit.Percent => amount / 100m,
            Unit.Kilogram => amount * 1000m,
            _ => amount,
        };
    }
}
