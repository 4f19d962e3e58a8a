using System.Globalization;
using System.Runtime.InteropServices;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>
/// <c>hooks [--rounds N] [--requests N] [--days N] [--service FILE]</c>: how long the built service takes to answer at order entry, beside a
/// web server that only reads and writes the same request. Prints tables. Exit 0, 1 where a signal cut it off, 2 for wrong usage.
/// </summary>
internal static class HooksCommand
{
    public const string Name = "hooks";
    private const string Built = "src/AirwayGuard.Host/bin/Release/net10.0/airwayguard.dll";
    private const string Usage = "Usage: hooks [--rounds N, default 5] [--requests N, default 1000] [--days N, default 100] [--service FILE, default " + Built + "]; N 1 to 100000";

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
            await new HooksRun(options, output, errors).RunAsync();
            return 0;
        }
        catch (Exception ended) when (Volatile.Read(ref isStopped) && ended is InvalidOperationException or HttpRequestException)
        {
            await errors.WriteLineAsync("stopped; what stands above was measured to its end, the rest was not");
            return 1;
        }

        // Otherwise the service would outlive this process.
        void Stop(PosixSignalContext signal)
        {
            Volatile.Write(ref isStopped, true);
            signal.Cancel = ServiceProcess.EndAll() + ProgramAgain.EndAll() > 0;
        }
    }

    private static HooksOptions? Read(IReadOnlyList<string> args)
    {
        var options = new HooksOptions(Built, 5, 1_000, 100);
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 == args.Count)
            {
                return null;
            }

            var number = int.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var read) && read is >= 1 and <= 100_000 ? read : 0;
            var next = (args[i], number) switch
            {
                ("--service", _) => options with { Service = args[i + 1] },
                ("--rounds", > 0) => options with { Rounds = number },
                ("--requests", > 0) => options with { Requests = number },
                ("--days", > 0) => options with { Days = number },
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
