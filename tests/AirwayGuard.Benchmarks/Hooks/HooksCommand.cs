using System.Globalization;
using AirwayGuard.Benchmarks.Harness;

namespace AirwayGuard.Benchmarks.Hooks;

/// <summary>
/// <c>hooks [--rounds N] [--requests N] [--days N] [--service FILE]</c>: how long the built service takes to answer at order entry, beside a
/// web server that only reads and writes the same request. Prints tables. Exit 0, 1 where a signal cut it off, 2 for wrong usage.
/// </summary>
internal static class HooksCommand
{
    public const string Name = "hooks";
    private const string Usage = "Usage: hooks [--rounds N, default 5] [--requests N, default 1000] [--days N, default 100] [--service FILE, default " + ServiceRun.Built + "]; N 1 to 100000";

    public static async Task<int> RunAsync(IReadOnlyList<string> args, TextWriter output, TextWriter errors)
    {
        if (Read(args) is not { } options)
        {
            await errors.WriteLineAsync(Usage);
            return 2;
        }

        return await ServiceRun.RunAsync(options.Service, () => new HooksRun(options, output, errors).RunAsync(), errors);
    }

    private static HooksOptions? Read(IReadOnlyList<string> args)
    {
        var options = new HooksOptions(ServiceRun.Built, 5, 1_000, 100);
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
