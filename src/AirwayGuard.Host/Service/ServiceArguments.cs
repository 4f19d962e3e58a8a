using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Host.Service;

/// <summary>
/// What may stand on the command line of the service: <c>--urls ADDRESS</c>, and settings as <c>--AirwayGuard:Name=value</c> or
/// <c>--AirwayGuard:Name value</c>. The configuration itself would pass over anything else without a word.
/// </summary>
internal static class ServiceArguments
{
    public static IReadOnlyList<Problem> ProblemsOf(IReadOnlyList<string> args)
    {
        var problems = new List<Problem>();
        var given = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < args.Count; i++)
        {
            var name = args[i].Split('=', 2)[0];
            if (!IsOption(args[i]))
            {
                problems.Add(new Problem(Codes.OptionUnknown, $"argument {i + 1}", "a verb comes first, and an option begins with --"));
            }
            else if (!IsKnown(name))
            {
                problems.Add(new Problem(Codes.OptionUnknown, name, "the service has no such option"));
                // What follows it would be its value.
                i += args[i].Length == name.Length && i + 1 < args.Count && !IsOption(args[i + 1]) ? 1 : 0;
            }
            else if (!given.Add(name))
            {
                // The configuration would take the last one without a word.
                problems.Add(new Problem(Codes.SettingTwice, name, "it is given more than once"));
                i += args[i].Length == name.Length && i + 1 < args.Count && !IsOption(args[i + 1]) ? 1 : 0;
            }
            else if (args[i].Length == name.Length && (++i == args.Count || IsOption(args[i])))
            {
                problems.Add(new Problem(Codes.OptionInvalid, name, "its value is missing"));
                i--;
            }
        }

        return problems;
    }

    private static bool IsOption(string argument) => argument.StartsWith("--", StringComparison.Ordinal);

    // Kestrel's own section gives certificates.
    private static bool IsKnown(string name) =>
        name.Equals("--urls", StringComparison.OrdinalIgnoreCase)
        || name.StartsWith("--AirwayGuard:", StringComparison.OrdinalIgnoreCase)
        || name.StartsWith("--Kestrel:", StringComparison.OrdinalIgnoreCase);
}
