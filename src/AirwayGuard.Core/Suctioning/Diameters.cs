using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Charted lengths in millimetres.</summary>
internal static class Diameters
{
    /// <summary>A number in mm or cm as millimetres; false for anything else.</summary>
    public static bool TryMillimetres(in FactValue value, out decimal millimetres)
    {
        millimetres = value.Unit switch
        {
            Unit.Millimetre => value.Magnitude,
            Unit.Centimetre => value.Magnitude * 10m,
            _ => 0m,
        };
        return value.IsNumber && value.Unit is Unit.Millimetre or Unit.Centimetre;
    }
}
