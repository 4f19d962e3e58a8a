namespace AirwayGuard.TestKit.Histories;

/// <summary>no-indication-charted over passes.</summary>
internal static class IndicationCheck
{
    private static readonly HashSet<string> NoReasons = new(StringComparer.Ordinal) { "routine", "scheduled", "per order", "per protocol" };

    public static void Judge(Checks checks)
    {
        foreach (var pass in checks.Passes.All.Where(p => checks.HasWaited(p.Over(checks.Known)) && !IsCharted(checks, p)))
        {
            checks.Tell("no-indication-charted", pass, Outcome.Breach, "moderate");
        }
    }

    public static bool IsCharted(Checks checks, Pass pass) => checks.WithPass(pass, "suction-indication", IsIndication) is not null;

    // Any text counts unless it says nothing but when, or by whose word.
    private static bool IsIndication(Item item) => item.Answer is { Length: > 0 } text
        && !text.Split([',', ';', '/'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).All(part => NoReasons.Contains(part) || IsInterval(part));

    // "q4h", "every 2 hours".
    private static bool IsInterval(string text)
    {
        var rest = text.StartsWith("every", StringComparison.Ordinal) ? text[5..] : text.StartsWith('q') ? text[1..] : "";
        var unit = rest.Trim().TrimStart("0123456789-. ".ToCharArray());
        return rest.Any(char.IsAsciiDigit) && unit is "h" or "hr" or "hrs" or "hour" or "hours" or "min" or "minutes";
    }
}
