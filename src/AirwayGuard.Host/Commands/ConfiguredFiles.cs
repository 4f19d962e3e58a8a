using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Fhir.Terminology;
using AirwayGuard.Rules;
using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Host.Commands;

/// <summary>Files that a person names as rule set or map. A pipe or device would block or never end: only regular files are opened.</summary>
internal static class ConfiguredFiles
{
    /// <summary>A shipped rule set by its name, else a file.</summary>
    public static RuleSetReading Rules(string nameOrFile) =>
        !ShippedRuleSets.Names.Contains(nameOrFile, StringComparer.Ordinal) && FileKinds.Of(nameOrFile) == FileKind.Other
            ? new RuleSetReading(nameOrFile, "", null, [new RuleSetFault(Codes.NotARegularFile, nameOrFile, 0, 0, "This is no regular file.", Codes.NotARegularFile.Advice)]) { Opened = false }
            : RuleSetLibrary.Resolve(nameOrFile);

    /// <returns>The map's bytes, or why they cannot be had.</returns>
    public static (MapSource? Source, Problem? Problem) Map(string file)
    {
        var kind = FileKinds.Of(file);
        if (kind != FileKind.Regular)
        {
            return (null, kind == FileKind.Missing
                ? new Problem(Codes.MapMissing, file.Length == 0 ? "map" : file, file.Length == 0 ? "no path is given" : Directory.Exists(file) ? "it is a folder" : "there is no such file")
                : new Problem(Codes.NotARegularFile, file, "the map is no regular file"));
        }

        try
        {
            return (new MapSource(Path.GetFileName(file), File.ReadAllBytes(file)), null);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            return (null, new Problem(Codes.NotARegularFile, file, "the map could not be opened for reading"));
        }
    }
}
