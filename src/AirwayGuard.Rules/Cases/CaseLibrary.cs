using System.Collections.Immutable;
using System.Reflection;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Cases;

/// <summary>
/// Finds the cases of a rule set: of <c>NAME.yaml</c> those in <c>NAME.cases.yaml</c> and in the files of a folder <c>NAME.cases</c> beside
/// it, in the order of their names; of a shipped set those shipped with it.
/// </summary>
internal static class CaseLibrary
{
    private const string Ending = ".cases";
    private const string FileEnding = ".yaml";
    private const string Resources = "AirwayGuard.Rules.RuleSets.";
    private const int MostFiles = 200;

    private static readonly ImmutableArray<string> Embedded = [.. Assembly.GetExecutingAssembly().GetManifestResourceNames().Order(StringComparer.Ordinal)];

    /// <summary>Of a shipped set.</summary>
    public static ImmutableArray<CaseFile> OfShipped(string name) =>
    [
        .. Embedded
            .Where(resource => resource.StartsWith($"{Resources}{name}{Ending}.", StringComparison.Ordinal))
            .Select(resource => CaseFileReader.Read(BytesOf(resource), resource[Resources.Length..])),
    ];

    /// <summary>Of a rule set's file; none where there are none beside it.</summary>
    public static ImmutableArray<CaseFile> Beside(string ruleFile)
    {
        var stem = ruleFile.EndsWith(FileEnding, StringComparison.OrdinalIgnoreCase) ? ruleFile[..^FileEnding.Length] : ruleFile;
        var files = new List<string>();
        if (File.Exists(stem + Ending + FileEnding))
        {
            files.Add(stem + Ending + FileEnding);
        }

        if (Directory.Exists(stem + Ending))
        {
            files.AddRange(Directory.EnumerateFiles(stem + Ending, "*" + FileEnding).Order(StringComparer.Ordinal).Take(MostFiles));
        }

        return [.. files.Select(ReadFile)];
    }

    /// <summary>One file of cases.</summary>
    public static CaseFile ReadFile(string path)
    {
        var (bytes, fault) = DocumentFile.Read(path);
        return fault is null
            ? CaseFileReader.Read(bytes, path)
            : new CaseFile(path, "", [], [new RuleSetFault(fault, path, 0, 0, fault == Codes.RuleSetMissing ? "There is no such file." : "The file could not be read.", fault.Advice)]) { Opened = false };
    }

    private static ReadOnlyMemory<byte> BytesOf(string resource)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(resource)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
