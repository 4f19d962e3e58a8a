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
    private const string Resources = "AirwayGuard.Rules.RuleSets.";
    private const int MostFiles = 200;

    private static readonly string[] Endings = [".yaml", ".yml"];

    private static readonly ImmutableArray<string> Embedded = [.. Assembly.GetExecutingAssembly().GetManifestResourceNames().Order(StringComparer.Ordinal)];

    /// <summary>Of a shipped set.</summary>
    public static ImmutableArray<CaseFile> OfShipped(string name) =>
    [
        .. Embedded
            .Where(resource => resource.StartsWith($"{Resources}{name}{Ending}.", StringComparison.Ordinal))
            .Select(resource => CaseFileReader.Read(BytesOf(resource), resource[Resources.Length..])),
    ];

    /// <summary>Of a rule set's file; none where there are none beside it. What is named like cases and is not read is a fault: it would hold unseen.</summary>
    public static ImmutableArray<CaseFile> Beside(string ruleFile)
    {
        var stem = Endings.FirstOrDefault(ending => ruleFile.EndsWith(ending, StringComparison.OrdinalIgnoreCase)) is { } ending ? ruleFile[..^ending.Length] : ruleFile;
        var folder = Path.GetDirectoryName(Path.GetFullPath(ruleFile))!;
        var beside = Directory.Exists(folder) ? Directory.EnumerateFiles(folder, Path.GetFileName(stem) + Ending + ".*") : [];
        var inside = Directory.Exists(stem + Ending) ? Directory.EnumerateFileSystemEntries(stem + Ending) : [];
        return
        [
            .. beside.Select(path => Path.Combine(Path.GetDirectoryName(ruleFile) ?? "", Path.GetFileName(path))).Concat(inside)
                .Order(StringComparer.Ordinal).Take(MostFiles)
                .Select(static path => Endings.Contains(Path.GetExtension(path), StringComparer.Ordinal) && !Directory.Exists(path) ? ReadFile(path) : NotRead(path)),
        ];
    }

    private static CaseFile NotRead(string path) =>
        new(path, "", [], [new RuleSetFault(Codes.CasesNotRead, path, 0, 0, "It lies where cases are, and is not read.", Codes.CasesNotRead.Advice)]) { Opened = false };

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
