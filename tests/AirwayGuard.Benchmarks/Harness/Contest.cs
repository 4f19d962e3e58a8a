namespace AirwayGuard.Benchmarks.Harness;

/// <summary>
/// Ways of doing the same work, taken in turn round by round so that a busy spell of the machine falls on all of them. The
/// first is the baseline; a ratio is the median of the rounds' own ratios.
/// </summary>
internal sealed class Contest
{
    private const int WarmUpRounds = 5;
    private static readonly TimeSpan Shortest = TimeSpan.FromMilliseconds(150);

    private readonly List<(string Name, Func<Task<Cost>> Round, List<Cost> Costs)> _ways = [];

    /// <summary>Work on the calling thread, repeated within a round until it has taken 150 ms of CPU.</summary>
    /// <param name="work">Returns how many units it did.</param>
    public Contest Add(string name, Func<long> work) => AddRound(name, () => Task.FromResult(Cost.Of(() =>
    {
        var (units, end) = (0L, Environment.CpuUsage.TotalTime + Shortest);
        do
        {
            units += work();
        }
        while (Environment.CpuUsage.TotalTime < end);
        return units;
    })));

    /// <summary>Work that awaits a port, repeated within a round until it has taken 150 ms of CPU.</summary>
    /// <param name="work">Returns how many units it did.</param>
    public Contest AddAsync(string name, Func<Task<long>> work) => AddRound(name, () => Cost.OfAsync(async () =>
    {
        var (units, end) = (0L, Environment.CpuUsage.TotalTime + Shortest);
        do
        {
            units += await work();
        }
        while (Environment.CpuUsage.TotalTime < end);
        return units;
    }));

    /// <summary>Work that measures itself, once a round.</summary>
    public Contest AddRound(string name, Func<Task<Cost>> round)
    {
        _ways.Add((name, round, []));
        return this;
    }

    /// <summary>Takes every way in turn.</summary>
    /// <param name="rounds">Rounds that count.</param>
    public async Task<IReadOnlyList<Standing>> RunAsync(int rounds)
    {
        for (var round = 0; round < WarmUpRounds + rounds; round++)
        {
            foreach (var (_, measure, costs) in _ways)
            {
                GC.Collect();
                var cost = await measure();
                if (round >= WarmUpRounds)
                {
                    costs.Add(cost);
                }
            }
        }

        var baseline = _ways[0].Costs;
        return [.. _ways.Select(way => Standing.Of(way.Name, way.Costs, baseline))];
    }
}
