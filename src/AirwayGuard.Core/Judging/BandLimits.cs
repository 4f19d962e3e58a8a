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

    /// <summary>One limit holds in every band, or none in any: no age is needed to say which.</summary>
    public bool AreOne
    {
        get
        {
            foreach (var limit in _byBand)
            {
                if (limit is null ? _byBand[0] is not null : _byBand[0] is not { } first || !limit.ComparesAs(first))
                {
                    return false;
                }
            }

            return true;
        }
    }

    public static BandLimits All(Limit limit) => new(limit, limit, limit, limit);
}
