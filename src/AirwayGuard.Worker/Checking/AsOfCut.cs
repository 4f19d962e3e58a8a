using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>
/// Cuts what was read at a time: facts that begin later are left out and counted; what began before and ends after is taken as not
/// yet ended.
/// </summary>
internal static class AsOfCut
{
    /// <returns>How many facts were left out.</returns>
    public static int Cut(Reading reading, long asOf)
    {
        var dropped = reading.Facts.RemoveAll(fact => !fact.Has(FactMarks.Timeless) && fact.EffectiveFrom > asOf);
        // What was not yet done used nothing, though what an act used carries no time of its own.
        var later = reading.Links.Where(link => link.Kind == LinkKind.DoneTo && link.FromTime > asOf).Select(link => link.From).ToHashSet();
        reading.Links.RemoveAll(link => (link.FromTime != long.MinValue && link.FromTime > asOf) || later.Contains(link.From));
        for (var i = 0; i < reading.Facts.Count; i++)
        {
            if (reading.Facts[i].EffectiveTo > asOf && !reading.Facts[i].Has(FactMarks.Timeless))
            {
                reading.Facts[i] = reading.Facts[i] with { EffectiveTo = long.MaxValue };
            }
        }

        for (var i = 0; i < reading.Links.Count; i++)
        {
            if (reading.Links[i].ToTime > asOf)
            {
                reading.Links[i] = reading.Links[i] with { ToTime = long.MaxValue };
            }
        }

        return dropped;
    }

    /// <summary>The latest time a reading carries; <see cref="long.MinValue"/> for none.</summary>
    public static long LatestTime(Reading reading)
    {
        var latest = long.MinValue;
        foreach (var fact in reading.Facts)
        {
            if (!fact.Has(FactMarks.Timeless))
            {
                latest = Math.Max(latest, fact.EffectiveTo == long.MaxValue ? fact.EffectiveFrom : fact.EffectiveTo);
            }
        }

        foreach (var link in reading.Links)
        {
            // A link of an instant is kept for one tick, so that it holds at that instant; no time was charted after it.
            latest = Math.Max(latest, link.ToTime == long.MaxValue || link.ToTime == link.FromTime + 1 ? link.FromTime : link.ToTime);
        }

        return latest;
    }
}
