using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Judging;

/// <summary>Compares a measured value with a limit: exactly in the limit's own unit, within the conversion tolerance in another.</summary>
public static class LimitCheck
{
    /// <summary>Cuff pressures converted from another unit equal a limit within this, in cm[H2O].</summary>
    private const decimal ToleranceCmH2O = 0.5m;

    /// <returns>Breach, pass, or cannot tell where a comparator leaves it open.</returns>
    public static Outcome Check(in Measured measured, Limit limit)
    {
        switch (limit.Comparison)
        {
            case Comparison.Missing:
                return measured.HasValue ? Outcome.Pass : Outcome.Breach;
            case Comparison.Is:
                return string.Equals(measured.Code, limit.Code, StringComparison.Ordinal) ? Outcome.Breach : Outcome.Pass;
            case Comparison.IsNot:
                return string.Equals(measured.Code, limit.Code, StringComparison.Ordinal) ? Outcome.Pass : Outcome.Breach;
            case Comparison.Outside:
                return Outside(measured, limit);
            default:
                return OneSided(measured, limit.Comparison, limit.Low, limit.Unit);
        }
    }

    /// <summary>Strictly above a mark, as surely as a breach is one.</summary>
    public static bool IsAbove(in Measured measured, decimal mark, Unit unit) => OneSided(measured, Comparison.Above, mark, unit) == Outcome.Breach;

    /// <summary>The value in the limit's unit, for display.</summary>
    public static decimal InUnitOf(in Measured measured, Limit limit) =>
        measured.Unit != limit.Unit && Units.IsPressure(measured.Unit) && Units.IsPressure(limit.Unit)
            ? Vacuum.Convert(measured.Value, measured.Unit, limit.Unit)
            : measured.Value * PerUnit(measured.Unit, limit.Unit);

    // Lengths are whole multiples of each other; everything else that is no pressure is measured in the unit of its limits.
    private static decimal PerUnit(Unit from, Unit to) => (from, to) switch
    {
        (Unit.Centimetre, Unit.Millimetre) => 10m,
        (Unit.Millimetre, Unit.Centimetre) => 0.1m,
        _ => 1m,
    };

    /// <summary>Of two limits the one that fewer values pass.</summary>
    public static Limit Stricter(Limit one, Limit other)
    {
        if (one.Comparison is Comparison.Is or Comparison.IsNot or Comparison.Missing)
        {
            return one;
        }

        var low = one.Comparison is Comparison.Below or Comparison.AtOrBelow;
        var by = Units.IsPressure(one.Unit) && Units.IsPressure(other.Unit)
            ? one.Low.CompareTo(Vacuum.Convert(other.Low, other.Unit, one.Unit))
            : one.Low.CompareTo(other.Low);
        if (by == 0)
        {
            return one.Comparison is Comparison.AtOrAbove or Comparison.AtOrBelow ? one : other;
        }

        return (by < 0) != low ? one : other;
    }

    private static Outcome Outside(in Measured measured, Limit limit)
    {
        var below = OneSided(measured, Comparison.Below, limit.Low, limit.Unit);
        var above = OneSided(measured, Comparison.Above, limit.High, limit.Unit);
        return below == Outcome.Breach || above == Outcome.Breach ? Outcome.Breach
            : below == Outcome.CannotTell || above == Outcome.CannotTell ? Outcome.CannotTell
            : Outcome.Pass;
    }

    private static Outcome OneSided(in Measured measured, Comparison comparison, decimal limit, Unit unit)
    {
        if (measured.UnitIsMissing)
        {
            var weakest = Measured.Start();
            weakest.Set(UnitDoubt.LeastPossibleMmHg(measured.Amount), Unit.MmHg);
            weakest.Comparator = measured.Comparator;
            weakest.AllowsUpTo = measured.AllowsUpTo;
            return OneSided(weakest, comparison, limit, unit) == Outcome.Breach ? Outcome.Breach : Outcome.CannotTell;
        }

        var by = Sign(measured, limit, unit);
        var exact = Exactly(by, comparison);
        if (measured.AllowsUpTo)
        {
            return by == 0 && measured.Comparator == Comparator.Below && comparison == Comparison.AtOrAbove ? Outcome.Pass : exact;
        }

        return measured.Comparator switch
        {
            Comparator.Exactly => exact,
            // The true value lies below the number: it complies with a ceiling at or over the number.
            Comparator.Below => comparison is Comparison.Above or Comparison.AtOrAbove
                ? (by <= 0 ? Outcome.Pass : Outcome.CannotTell)
                : (by <= 0 ? Outcome.Breach : Outcome.CannotTell),
            Comparator.AtMost => comparison switch
            {
                Comparison.Above => by <= 0 ? Outcome.Pass : Outcome.CannotTell,
                Comparison.AtOrAbove => by < 0 ? Outcome.Pass : Outcome.CannotTell,
                Comparison.Below => by < 0 ? Outcome.Breach : Outcome.CannotTell,
                _ => by <= 0 ? Outcome.Breach : Outcome.CannotTell,
            },
            // Over or at a ceiling, > and >= breach: the true value lies there or beyond.
            Comparator.Above or Comparator.AtLeast => comparison is Comparison.Above or Comparison.AtOrAbove
                ? (by >= 0 ? Outcome.Breach : Outcome.CannotTell)
                : (by > 0 || (by == 0 && (comparison == Comparison.Below || measured.Comparator == Comparator.Above)) ? Outcome.Pass : Outcome.CannotTell),
            _ => Outcome.CannotTell,
        };
    }

    private static Outcome Exactly(int by, Comparison comparison)
    {
        var breaches = comparison switch
        {
            Comparison.Above => by > 0,
            Comparison.AtOrAbove => by >= 0,
            Comparison.Below => by < 0,
            Comparison.AtOrBelow => by <= 0,
            _ => false,
        };
        return breaches ? Outcome.Breach : Outcome.Pass;
    }

    private static int Sign(in Measured measured, decimal limit, Unit unit)
    {
        if (measured.Unit == unit || !Units.IsPressure(measured.Unit) || !Units.IsPressure(unit))
        {
            return measured.Amount.CompareTo(limit * PerUnit(unit, measured.Unit) * measured.Divisor);
        }

        var difference = Vacuum.Convert(measured.Value, measured.Unit, unit) - limit;
        var tolerance = unit == Unit.CmH2O ? ToleranceCmH2O : Vacuum.Convert(Vacuum.ToleranceMmHg, Unit.MmHg, unit);
        return Math.Abs(difference) <= tolerance ? 0 : Math.Sign(difference);
    }
}
