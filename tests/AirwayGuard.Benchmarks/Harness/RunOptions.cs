using System.Globalization;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>What is measured, and for how long.</summary>
/// <param name="Names">Benchmarks to run.</param>
/// <param name="Rounds">Rounds that count, 1 to 1,000; those of the warm-up come on top. Default 7.</param>
/// <param name="Rows">Charting rows to work on, 1,000 to 10,000,000; null leaves it to each benchmark.</param>
internal sealed record RunOptions(IReadOnlyList<string> Names, int Rounds, int? Rows)
{
    /// <summary>Reads the command line: names of benchmarks (none: all), <c>--rounds</c>, <c>--rows</c>.</summary>
    public static bool TryParse(IReadOnlyList<string> args, IReadOnlyList<string> known, out RunOptions options, out string problem)
    {
        var (names, rounds, rows) = (new List<string>(), 7, (int?)null);
        options = new RunOptions(known, rounds, rows);
        for (var i = 0; i < args.Count; i++)
        {
            var isRounds = args[i] == "--rounds";
            if (isRounds || args[i] == "--rows")
            {
                var (least, most) = isRounds ? (1, 1_000) : (1_000, 10_000_000);
                if (i + 1 == args.Count || !int.TryParse(args[++i], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                    || number < least || number > most)
                {
                    problem = string.Create(CultureInfo.InvariantCulture, $"{(isRounds ? "--rounds" : "--rows")} needs a whole number from {least} to {most}.");
                    return false;
                }

                rounds = isRounds ? number : rounds;
                rows = isRounds ? rows : number;
            }
            else if (known.Contains(args[i], StringComparer.Ordinal))
            {
                names.Add(args[i]);
            }
            else
            {
                problem = $"Usage: [{string.Join("] [", known)}] [--rounds n] [--rows n], or one of: simulate, kills, year, mutate, reliability, hooks";
                return false;
            }
        }

        options = new RunOptions(names.Count == 0 ? known : names, rounds, rows);
        problem = "";
        return true;
    }
}
