namespace AirwayGuard.Worker.Overrides;

/// <summary>
/// The 95 % score interval of a share, as fractions of one, without correction for continuity (Wilson, J Am Stat Assoc 1927;22:209–212).
/// It holds for trials that do not depend on each other.
/// </summary>
public readonly record struct WilsonInterval(double Low, double High)
{
    // The standard normal distribution has 2.5 % above it.
    private const double Z = 1.959963984540054;

    /// <returns>Null where nothing was tried.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Fewer hits than none, or more than trials.</exception>
    public static WilsonInterval? Of(int hits, int trials)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(hits);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hits, trials);
        if (trials == 0)
        {
            return null;
        }

        var (share, squared) = ((double)hits / trials, Z * Z / trials);
        var middle = (share + (squared / 2)) / (1 + squared);
        var half = Math.Sqrt(squared * ((share * (1 - share)) + (squared / 4))) / (1 + squared);
        // At none and at all the bound is exact; rounding must not carry it past.
        return new WilsonInterval(hits == 0 ? 0 : middle - half, hits == trials ? 1 : middle + half);
    }
}
