namespace AirwayGuard.Core.Quantities;

/// <summary>Inspired oxygen as charted: a fraction, a percentage, or neither.</summary>
public static class Fractions
{
    /// <summary>
    /// The fraction of inspired oxygen: 0.21 to 1 as it stands, 21 to 100 as a percentage, whatever the unit says, since feeds
    /// print 0.3 with unit % and 30 with unit 1. Anything else is doubtful and not used.
    /// </summary>
    public static bool TryInspiredOxygen(decimal charted, out decimal fraction)
    {
        fraction = charted switch
        {
            >= 0.21m and <= 1m => charted,
            >= 21m and <= 100m => charted / 100m,
            _ => 0m,
        };
        return fraction != 0m;
    }
}
