using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Checking;

/// <summary>
/// Versions in the order in which they replaced each other: the first wave holds the earliest version of every resource, the next
/// one the second versions, and so on. Later is a later meta.lastUpdated, else later in the input.
/// </summary>
internal static class VersionWaves
{
    public static List<List<ReadArrival>> Of(List<ReadArrival> read)
    {
        var waves = new List<List<ReadArrival>> { new() };
        var seen = new Dictionary<(string, string), int>();
        var versions = new HashSet<(string, string, string)>();
        foreach (var one in read.OrderBy(one => one.Arrival.KnownAt))
        {
            var arrival = one.Arrival;
            if (arrival.Type is null || arrival.Id is null)
            {
                waves[0].Add(one);
                continue;
            }

            if (arrival.Version is not null && !versions.Add((arrival.Type, arrival.Id, arrival.Version)))
            {
                continue;
            }

            var wave = seen.GetValueOrDefault((arrival.Type, arrival.Id));
            seen[(arrival.Type, arrival.Id)] = wave + 1;
            while (waves.Count <= wave)
            {
                waves.Add([]);
            }

            waves[wave].Add(one);
        }

        return waves;
    }

    /// <summary>What counts in the end: the last version of every resource.</summary>
    public static IEnumerable<ReadArrival> Latest(List<List<ReadArrival>> waves)
    {
        var later = new HashSet<(string?, string?)>();
        foreach (var one in Enumerable.Reverse(waves).SelectMany(wave => wave))
        {
            if (one.Arrival.Type is null || one.Arrival.Id is null || later.Add((one.Arrival.Type, one.Arrival.Id)))
            {
                yield return one;
            }
        }
    }
}
