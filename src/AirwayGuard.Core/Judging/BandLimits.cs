using System.Collections.Immutable;

namespace AirwayGuard.Core.Judging;

/// <summary>A limit for each of the four age bands; null where the band is not judged.</summary>
public sealed record BandLimits
{
    private readonly ImmutableArray<Limit?> _byBand;

    /// <param name="byBand">Neonate, infant, child, adult.</param>
    /// <exception cref="ArgumentException">Not four entries.</exception>
    public BandLimits(params ImmutableArray<Limit?> byBand)
    {
        if (byBand.Length != 4)
        {
            throw new ArgumentException("Four bands are needed.", nameof(byBand));
        }

        _byBand = byBand;
    }

    public Limit? For(AgeBand band) => band == AgeBand.Unknown ? null : _byBand[(int)band];

    public static BandLimits All(Limit limit) => new(limit, limit, limit, limit);
}
