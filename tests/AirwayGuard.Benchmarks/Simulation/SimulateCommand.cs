using System.Diagnostics;
using System.Globalization;
using AirwayGuard.TestKit.Simulation;

namespace AirwayGuard.Benchmarks.Simulation;

/// <summary>
/// <c>simulate [--seeds N] [--from SEED] [--break PROMISE]</c>: as many schedules as somebody has time for. Prints each that breaks a promise, whole,
/// and a line of sums. Exit 0 if all held, 1 if not, 2 for wrong usage.
/// </summary>
internal static class SimulateCommand
{
    public const string Name = "simulate";
    private const string Usage = "Usage: simulate [--seeds 1 to 1000000, default 100] [--from 0 to 1000000000, default 1] [--break PROMISE]";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!TryRead(args, out var seeds, out var from, out var sabotage))
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        var (began, failed, faults, ends, findings) = (Stopwatch.GetTimestamp(), 0, 0, 0, 0);
        using var gate = new SemaphoreSlim(1, 1);
        await Parallel.ForEachAsync(Enumerable.Range(from, seeds), async (seed, stop) =>
        {
            var outcome = await Simulator.RunAsync(seed, sabotage);
            await gate.WaitAsync(stop);
            try
            {
                (faults, ends, findings) = (faults + outcome.Faults, ends + outcome.Ends, findings + outcome.Findings.Count);
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
            $"{seeds} seeds from {from}: {failed} broke a promise; {faults} faults, {ends} ends of the process, {findings} findings, {Stopwatch.GetElapsedTime(began).TotalSeconds:F1} s"));
        return failed == 0 ? 0 : 1;
    }

    private static bool TryRead(IReadOnlyList<string> args, out int seeds, out int from, out Sabotage sabotage)
    {
        (seeds, from, sabotage) = (100, 1, Sabotage.None);
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
