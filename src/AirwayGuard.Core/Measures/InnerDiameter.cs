using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>
/// The inner diameter in use: the inner cannula's while one is in place, else the tube's. A charted diameter of a cannula, or an
/// inner-cannula Device in use, is in place unless charted otherwise; false, 0 or the end of its use ends it.
/// </summary>
internal static class InnerDiameter
{
    /// <returns>Millimetres; 0 with what is missing set in the result.</returns>
    public static decimal At(in Timeline timeline, Care care, int airway, long at, ref Measured result)
    {
        if (airway < 0)
        {
            result.Missing = Missing.TubeInnerDiameter;
            return 0m;
        }

        var span = care.Airways[airway];
        var cannula = InnerCannula.At(timeline, care, span, at, out var isInPlace);
        if (isInPlace && cannula < 0)
        {
            result.Missing = Missing.InnerCannulaDiameter;
            return 0m;
        }

        var fact = isInPlace ? cannula : span.DiameterFact;
        if (fact < 0 || (!timeline.Facts[fact].Has(FactMarks.Timeless) && timeline.Facts[fact].EffectiveFrom > at) || !Diameters.TryMillimetres(timeline.Facts[fact].Value, out var millimetres) || millimetres <= 0m)
        {
            result.Missing = Missing.TubeInnerDiameter;
            return 0m;
        }

        if (timeline.Facts[fact].Value.Comparator != Comparator.Exactly)
        {
            result.Missing = Missing.ExactValue;
            return 0m;
        }

        result.Uses(fact);
        return millimetres;
    }
}
