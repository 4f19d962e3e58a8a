using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules;

/// <summary>Finds a rule set by the name of a shipped one or by the path of a file.</summary>
public static class RuleSetLibrary
{
    /// <summary>A shipped name wins over a file of the same name; write <c>./name</c> for the file.</summary>
    public static RuleSetReading Resolve(string nameOrFile)
    {
        ArgumentNullException.ThrowIfNull(nameOrFile);
        return string.IsNullOrWhiteSpace(nameOrFile) ? NotOpened(Codes.RuleSetMissing, "rule set", "Neither a name nor a path is given.")
            : ShippedRuleSets.Names.Contains(nameOrFile, StringComparer.Ordinal) ? ShippedRuleSets.Load(nameOrFile) : ReadFile(nameOrFile);
    }

    /// <summary>Reads a file; <see cref="RuleSetReading.Opened"/> is false where that was not possible.</summary>
    public static RuleSetReading ReadFile(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        var (bytes, fault) = DocumentFile.Read(path);
        if (fault is null)
        {
            return NotOfAShippedName(RuleSetReader.Read(bytes, path, BaseSource.Beside(path)));
        }

        var what = fault == Codes.RuleSetMissing ? $"There is no such rule set or file.{Words.DidYouMean(path, ShippedRuleSets.Names)}"
            : fault == Codes.NotARegularFile ? "This is no regular file."
            : fault == Codes.RuleSetChanging ? "The file was written to while it was read."
            : Directory.Exists(path) ? "This is a folder." : "The file could not be opened.";
        return NotOpened(fault, path, what);
    }

    // Two sets of one name could not be told apart by what a finding or a sign-off says; a plain copy is the same set.
    private static RuleSetReading NotOfAShippedName(RuleSetReading reading) =>
        reading.RuleSet is { } set && ShippedRuleSets.Names.Contains(set.Name, StringComparer.Ordinal) && ShippedRuleSets.Load(set.Name).RuleSet!.Sha256 != set.Sha256
            ? reading with { RuleSet = null, Faults = [new RuleSetFault(Codes.NameOfShipped, reading.File, 0, 0, $"The set is called {Words.Quote(set.Name)} and is not the one that is shipped.", Codes.NameOfShipped.Advice)] }
            : reading;

    private static RuleSetReading NotOpened(DiagnosticCode code, string path, string what) =>
        new(path, "", null, [new RuleSetFault(code, path, 0, 0, what, code.Advice)]) { Opened = false };
}
