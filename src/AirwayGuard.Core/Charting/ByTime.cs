namespace AirwayGuard.Core.Charting;

/// <summary>Searches what is sorted by its beginning.</summary>
public static class ByTime
{
    /// <summary>Index of the first that begins after a time.</summary>
    public static int FirstAfter<T>(ReadOnlySpan<T> sorted, long ticks)
        where T : struct, ITimed
    {
        var (low, high) = (0, sorted.Length);
        while (low < high)
        {
            var middle = (low + high) >>> 1;
            if (sorted[middle].Begins <= ticks)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }
}
