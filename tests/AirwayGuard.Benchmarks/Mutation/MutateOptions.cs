using System.Globalization;

namespace AirwayGuard.Benchmarks.Mutation;

/// <param name="Kind">The only kind of input; null for each by its share.</param>
/// <param name="Into">Folder for inputs that broke something.</param>
internal sealed record MutateOptions(long Inputs, long From, string? Kind, string Into)
{
    public static bool TryRead(IReadOnlyList<string> args, out MutateOptions options)
    {
        options = new MutateOptions(100_000, 1, null, Path.Combine(Path.GetTempPath(), "airwayguard-mutate"));
        for (var i = 0; i < args.Count; i += 2)
        {
            if (i + 1 == args.Count)
            {
                return false;
            }

            var number = long.TryParse(args[i + 1], NumberStyles.None, CultureInfo.InvariantCulture, out var read) ? read : -1;
            switch (args[i])
            {
                case "--inputs" when number is >= 1 and <= 1_000_000_000:
                    options = options with { Inputs = number };
                    break;
                case "--from" when number is >= 0 and <= 1_000_000_000_000:
                    options = options with { From = number };
                    break;
                case "--kind":
                    options = options with { Kind = args[i + 1] };
                    break;
                case "--into":
                    options = options with { Into = args[i + 1] };
                    break;
                default:
                    return false;
            }
        }

        return true;
    }
}
