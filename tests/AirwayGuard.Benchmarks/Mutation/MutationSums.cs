using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using AirwayGuard.TestKit.Mutation;

namespace AirwayGuard.Benchmarks.Mutation;

/// <summary>Counts of a run by kind. Safe for concurrent use.</summary>
internal sealed class MutationSums(IReadOnlyList<string> kinds)
{
    private readonly Dictionary<string, Sum> _sums = kinds.ToDictionary(kind => kind, _ => new Sum(), StringComparer.Ordinal);
    private readonly ConcurrentDictionary<int, long> _inHand = new();
    private int _failed;

    public int Failed => _failed;

    /// <summary>The seeds being run, so that one that never ends can be named.</summary>
    public string InHand => string.Join(", ", _inHand.Values.Order());

    public void Begin(long seed) => _inHand[Environment.CurrentManagedThreadId] = seed;

    /// <returns>Which failure it is, from 1; null for none.</returns>
    public int? Add(MutationResult result, TimeSpan took)
    {
        var sum = _sums[result.Kind];
        lock (sum)
        {
            sum.Count++;
            sum.Bytes += result.Input.Length;
            sum.Took += took;
            sum.Fullest = Math.Max(sum.Fullest, (double)result.Work / result.Allowed);
            sum.Failed += result.Fault is null ? 0 : 1;
        }

        return result.Fault is null ? null : Interlocked.Increment(ref _failed);
    }

    public string ToTable()
    {
        var table = new StringBuilder("kind        inputs  failed  bytes each  µs each  most of the work allowed\n");
        foreach (var (kind, sum) in _sums.Where(one => one.Value.Count > 0))
        {
            table.Append(CultureInfo.InvariantCulture, $"{kind,-10} {sum.Count,7} {sum.Failed,7} {sum.Bytes / sum.Count,11} {sum.Took.TotalMicroseconds / sum.Count,8:F1} {sum.Fullest,9:P0}\n");
        }

        return table.ToString().TrimEnd();
    }

    private sealed class Sum
    {
        public long Count, Failed, Bytes;
        public TimeSpan Took;
        public double Fullest;
    }
}
