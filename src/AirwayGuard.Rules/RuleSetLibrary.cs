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
        try
        {
            return RuleSetReader.Read(ReadBounded(path), path);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            var near = NearWord.Find(path, ShippedRuleSets.Names) is { } name ? $" Did you mean {name}?" : "";
            return NotOpened(Codes.RuleSetMissing, path, $"There is no such rule set or file.{near}");
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return NotOpened(Codes.RuleSetUnreadable, path, Directory.Exists(path) ? "This is a folder." : "The file could not be opened.");
        }
    }

    /// <summary>One byte more than is allowed at most, so that a file without end is told from a large one by neither.</summary>
    private static ReadOnlyMemory<byte> ReadBounded(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        var bytes = new byte[DocumentText.MostBytes + 1];
        var length = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return bytes.AsMemory(0, length);
    }

    private static RuleSetReading NotOpened(DiagnosticCode code, string path, string what) =>
        new(path, "", null, [new RuleSetFault(code, path, 0, 0, what, code.Advice)]) { Opened = false };
}
