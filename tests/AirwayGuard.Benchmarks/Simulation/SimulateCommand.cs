using System.Diagnostics;
using System.Globalization;
using AirwayGuard.TestKit.Simulation;

namespace AirwayGuard.Benchmarks.Simulation;

/// <summary>
/// <c>simulate [--seeds N] [--seconds S] [--from SEED] [--break PROMISE]</c>: as many schedules as somebody has time for. Prints each that breaks a
/// promise, whole, and a line of sums. Exit 0 if all held, 1 if not, 2 for wrong usage.
/// </summary>
internal static class SimulateCommand
{
    public const string Name = "simulate";
    private const string Usage = "Usage: simulate [--seeds 1 to 1000000, default 100; with --seconds 1 to 100000 the least] [--from 0 to 1000000000, default 1] [--break PROMISE]";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!TryRead(args, out var seeds, out var seconds, out var from, out var sabotage))
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        var (began, run, failed, sums) = (Stopwatch.GetTimestamp(), 0, 0, new int[6]);
        using var gate = new SemaphoreSlim(1, 1);
        await Parallel.ForEachAsync(SeedsFrom(from, seeds, began, TimeSpan.FromSeconds(seconds)), async (seed, stop) =>
        {
            var outcome = await Simulator.RunAsync(seed, sabotage);
            await gate.WaitAsync(stop);
            try
            {
                run++;
                var counts = Counts(outcome);
                for (var i = 0; i < sums.Length; i++)
                {
                    sums[i] += counts[i];
                }

                if (!outcome.Held)
                {
                    failed++;
                    await output.WriteLineAsync(outcome.Describe());
                }
            }
            finally
            {
                gate.Release();
            }
        });

        await output.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{run} seeds from {from}: {failed} broke a promise; {sums[0]} faults, {sums[1]} ends of a process, {sums[2]} commits on a full disk, {sums[3]} late decisions refused, {sums[4]} persons' acts, {sums[5]} findings, {Stopwatch.GetElapsedTime(began).TotalSeconds:F1} s"));
        return failed == 0 ? 0 : 1;
    }

    private static int[] Counts(SimulationOutcome outcome) =>
        [outcome.Faults, outcome.Ends, outcome.RefusedByDisk, outcome.RefusedByFence, outcome.PersonsActs, outcome.Findings.Count];

    private static IEnumerable<int> SeedsFrom(int from, int least, long began, TimeSpan time)
    {
        for (var seed = from; seed < from + least || Stopwatch.GetElapsedTime(began) < time; seed++)
        {
            yield return seed;
        }
    }

    private static bool TryRead(IReadOnlyList<string> args, out int seeds, out int seconds, out int from, out Sabotage sabotage)
    {
        (seeds, seconds, from, sabotage) = (100, 0, 1, Sabotage.None);
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 < args.Count && args[i] == "--break" && Enum.TryParse(args[i + 1], out sabotage))
            {
                continue;
            }

            if (i + 1 == args.Count || !int.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                return false;
            }

            switch (args[i])
            {
                case "--seeds" when number is >= 1 and <= 1_000_000:
                    seeds = number;
                    break;
                case "--seconds" when number is >= 1 and <= 100_000:
                    seconds = number;
                    break;
                case "--from" when number <= 1_000_000_000:
                    from = number;
                    break;
                default:
                    return false;
            }
        }

        return true;
    }
}
