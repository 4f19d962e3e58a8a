using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Simulation;

/// <summary>
/// <c>kills [--kills N] [--from SEED] [--lives told] [--service FILE]</c>: ends the built service by SIGKILL while rows are charted. Prints a line of sums, and
/// where a promise is broken, or lives are to be told, the seed and what was done; cut off by a signal, the sums so far. Exit 0 if all held, 1 if not or cut off, 2 for
/// wrong usage.
/// </summary>
internal static class KillsCommand
{
    public const string Name = "kills";
    private const string Built = "src/AirwayGuard.Host/bin/Release/net10.0/airwayguard.dll";
    private const string Usage = "Usage: kills [--kills 1 to 10000, default 60] [--from 0 to 1000000000, default 1] [--lives told, default untold] [--service FILE, default " + Built + "]";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (!TryRead(args, out var settings, out var lives))
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        if (!File.Exists(settings.Service))
        {
            await errors.WriteLineAsync($"{settings.Service} is not there: build the service first, and run this from the repository's root.");
            return 2;
        }

        await errors.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"seed {settings.Seed}"));
        using var stop = new CancellationTokenSource();
        using var asked = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        var began = Stopwatch.GetTimestamp();
        var outcome = await KillRun.RunAsync(settings, stop.Token);
        if (!outcome.Held || lives)
        {
            await output.WriteLineAsync(outcome.Describe());
        }

        await errors.WriteLineAsync("last commit before the end: " + string.Join(", ", outcome.LastDone.OrderByDescending(one => one.Value).Select(one => string.Create(CultureInfo.InvariantCulture, $"{one.Value} {one.Key}"))));
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{outcome.Sum}, {Stopwatch.GetElapsedTime(began).TotalSeconds:F1} s"));
        return outcome is { Held: true, IsCutOff: false } ? 0 : 1;

        // Otherwise the service would outlive this process.
        void Stop(PosixSignalContext signal)
        {
            signal.Cancel = true;
            stop.Cancel();
        }
    }

    private static bool TryRead(IReadOnlyList<string> args, out KillSettings settings, out bool lives)
    {
        (settings, lives) = (new KillSettings(Built, 60, 1), false);
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 == args.Count)
            {
                return false;
            }

            var number = int.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var read) ? read : -1;
            switch (args[i])
            {
                case "--kills" when number is >= 1 and <= 10_000:
                    settings = settings with { Kills = number };
                    break;
                case "--from" when number is >= 0 and <= 1_000_000_000:
                    settings = settings with { Seed = number };
                    break;
                case "--lives" when args[i + 1] is "told" or "untold":
                    lives = args[i + 1] == "told";
                    break;
                case "--service":
                    settings = settings with { Service = args[i + 1] };
                    break;
                default:
                    return false;
            }
        }

        return true;
    }
}
