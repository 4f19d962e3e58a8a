using System.Globalization;
using System.Runtime.InteropServices;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>
/// <c>reliability [--rows N] [--patients N] [--flags N] [--missed N] [--service FILE]</c>: the measures of reliability, with the server in another process. Prints a
/// table. Exit 0, 1 where a signal cut it off, 2 for wrong usage.
/// </summary>
internal static class ReliabilityCommand
{
    public const string Name = "reliability";
    private const string Built = "src/AirwayGuard.Host/bin/Release/net10.0/airwayguard.dll";
    private const string Usage = "Usage: reliability [--rows N, default 2000] [--patients N, default 20] [--flags N, default 40] [--missed N, default 100000] [--service FILE, default " + Built + "]; N 1 to 1000000";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (Read(args) is not { } options)
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        if (!File.Exists(options.Service))
        {
            await errors.WriteLineAsync($"{options.Service} is not there: build the service first, and run this from the repository's root.");
            return 2;
        }

        var isStopped = false;
        using var asked = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        try
        {
            await new ReliabilityRun(options, output).RunAsync();
            return 0;
        }
        catch (Exception ended) when (Volatile.Read(ref isStopped) && ended is InvalidOperationException or HttpRequestException)
        {
            await errors.WriteLineAsync("stopped; what stands above was measured to its end, the rest was not");
            return 1;
        }

        // Otherwise the service would outlive this process. Without it the measure under way comes to an end, which removes its folders.
        void Stop(PosixSignalContext signal)
        {
            Volatile.Write(ref isStopped, true);
            signal.Cancel = ServiceProcess.EndAll() + ProgramAgain.EndAll() > 0;
        }
    }

    private static ReliabilityOptions? Read(IReadOnlyList<string> args)
    {
        var options = new ReliabilityOptions(Built, 2_000, 20, 40, 100_000);
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 == args.Count)
            {
                return null;
            }

            var number = int.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var read) && read is >= 1 and <= 1_000_000 ? read : 0;
            var next = (args[i], number) switch
            {
                ("--service", _) => options with { Service = args[i + 1] },
                ("--rows", > 0) => options with { Rows = number },
                ("--patients", > 0) => options with { Patients = number },
                ("--flags", > 0) => options with { Flags = number },
                ("--missed", > 0) => options with { Missed = number },
                _ => null,
            };
            if (next is null)
            {
                return null;
            }

            options = next;
        }

        return options;
    }
}
