namespace AirwayGuard.Core.Quantities;

/// <summary>Charted durations in seconds.</summary>
public static class Durations
{
    /// <summary>Seconds of a charted duration; false for a unit that is not one of s, min, h, d, wk.</summary>
    public static bool TrySeconds(decimal amount, Unit unit, out decimal seconds)
    {
        var factor = unit switch
        {
            Unit.Second => 1m,
            Unit.Minute => 60m,
            Unit.Hour => 3600m,
            Unit.Day => 86_400m,
            Unit.Week => 604_800m,
            _ => 0m,
        };
        seconds = amount * factor;
        return factor != 0m;
    }
}
