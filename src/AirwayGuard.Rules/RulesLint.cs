using System.Globalization;

namespace AirwayGuard.Rules;

/// <summary>The text of <c>rules lint FILE</c>: every fault at once, one a line, or one line that all is well behind what may be a slip.</summary>
public static class RulesLint
{
    public const int Clean = 0;
    public const int HasFaults = 1;
    public const int NotOpened = 2;

    /// <param name="nameOrFile">A shipped name or a path.</param>
    /// <param name="output">Takes the faults, which are what the verb is asked for.</param>
    /// <returns>0 clean; 1 where there is a fault; 2 where the file could not be opened.</returns>
    public static int Run(string nameOrFile, TextWriter output) => Report(RuleSetLibrary.Resolve(nameOrFile), output);

    /// <summary>Writes a reading's faults, or what was read.</summary>
    public static int Report(RuleSetReading reading, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(output);
        foreach (var fault in reading.Faults)
        {
            output.WriteLine(fault);
        }

        if (!reading.Opened)
        {
            return NotOpened;
        }

        if (reading.RuleSet is { } set)
        {
            foreach (var note in reading.Notes)
            {
                output.WriteLine(note);
            }

            output.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{reading.File}: clean; {set.Name} {set.Version}, {Counted(set.Rules.Length, "check")}, sha256 {set.Sha256}"));
            return Clean;
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{reading.File}: {Counted(reading.Faults.Count, "fault")}"));
        return HasFaults;
    }

    private static string Counted(int count, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
