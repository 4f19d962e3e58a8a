using System.Globalization;

namespace AirwayGuard.Benchmarks.Year;

/// <summary>How large a unit is generated, and how it is judged.</summary>
/// <param name="Beds">1 to 200. Default 24.</param>
/// <param name="Days">1 to 3,660. Default 7.</param>
/// <param name="Seed">0 to 1,000. Default 1.</param>
/// <param name="KeepsInLedger">Through the ledger and the judging step, as the service does, instead of in memory.</param>
internal sealed record YearOptions(int Beds, int Days, int Seed, bool KeepsInLedger)
{
    public const string Usage = "Usage: year [--beds 1 to 200, default 24] [--days 1 to 3660, default 7] [--seed 0 to 1000, default 1] [--ledger]";

    public static bool TryParse(IReadOnlyList<string> args, out YearOptions options)
    {
        options = new YearOptions(24, 7, 1, false);
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] == "--ledger")
            {
                options = options with { KeepsInLedger = true };
                continue;
            }

            if (i + 1 == args.Count || !int.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                return false;
            }

            switch (args[i++])
            {
                case "--beds" when number is >= 1 and <= 200:
                    options = options with { Beds = number };
                    break;
                case "--days" when number is >= 1 and <= 3_660:
                    options = options with { Days = number };
                    break;
                case "--seed" when number <= 1_000:
                    options = options with { Seed = number };
                    break;
                default:
                    return false;
            }
        }

        return true;
    }
}
