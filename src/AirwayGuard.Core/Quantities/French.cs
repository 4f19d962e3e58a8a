namespace AirwayGuard.Core.Quantities;

/// <summary>
/// Catheter size. ISO 8836:2014 cl. 5.1: the French size counts thirds of a millimetre of outside diameter (1 mm = 3 F).
/// UCUM's [Ch] has had two definitions, so no unit library is asked.
/// </summary>
public static class French
{
    /// <summary>Outside diameter in millimetres.</summary>
    public static decimal OutsideDiameter(decimal french) => french / 3m;

    /// <summary>
    /// Share of the tube's inner diameter that the catheter takes, compared exactly: the sign of Fr / (3 × mm) − limit.
    /// </summary>
    public static int CompareRatio(decimal french, decimal innerDiameterMm, decimal limit) => french.CompareTo(limit * 3m * innerDiameterMm);

    /// <summary>The same share for display; 12 Fr in 8.0 mm is one half.</summary>
    public static decimal Ratio(decimal french, decimal innerDiameterMm) => french / (3m * innerDiameterMm);
}
