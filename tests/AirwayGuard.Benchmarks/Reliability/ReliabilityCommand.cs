using System.Globalization;
using AirwayGuard.Benchmarks.Harness;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>
/// <c>reliability [--rows N] [--patients N] [--flags N] [--missed N] [--service FILE]</c>: the measures of reliability, with the server in another process. Prints a
/// table. Exit 0, 1 where a signal cut it off, 2 for wrong usage.
/// </summary>
internal static class ReliabilityCommand
{
    public const string Name = "reliability";
    private const string Usage = "Usage: reliability [--rows N, default 2000] [--patients N, default 20] [--flags N, default 40] [--missed N, default 100000] [--service FILE, default " + ServiceRun.Built + "]; N 1 to 1000000";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (Read(args) is not { } options)
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        return await ServiceRun.RunAsync(options.Service, () => new ReliabilityRun(options, output).RunAsync(), errors);
    }

    private static ReliabilityOptions? Read(IReadOnlyList<string> args)
    {
        var options = new ReliabilityOptions(ServiceRun.Built, 2_000, 20, 40, 100_000);
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
