using System.Diagnostics;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>What was done so far.</summary>
internal sealed class YearSums
{
    public long Began { get; } = Stopwatch.GetTimestamp();

    public long Rows { get; set; }

    public long Stays { get; set; }

    /// <summary>Occurrences found in the stays that ended.</summary>
    public long Findings { get; set; }

    /// <summary>CPU time spent on making rows, which is nobody's cost but the benchmark's.</summary>
    public TimeSpan Made { get; set; }

    /// <summary>CPU time of the baseline.</summary>
    public TimeSpan Picked { get; set; }

    /// <summary>CPU time of reading, keeping and judging.</summary>
    public TimeSpan Judged { get; set; }
}
