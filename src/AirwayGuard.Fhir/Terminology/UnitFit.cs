using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Fhir.Terminology;

/// <summary>Which units a value of a dimension may be charted in.</summary>
internal static class UnitFit
{
    public static bool Fits(Dimension wanted, Unit unit) =>
        Units.TryDimension(unit, out var has)
        && (has == wanted || (wanted == Dimension.Count && unit == Unit.One));

    /// <summary>Counts, and fractions that the number itself tells from percentages, may stand bare.</summary>
    public static bool MayBeBare(Dimension dimension) => dimension is Dimension.Count or Dimension.Fraction;
}
