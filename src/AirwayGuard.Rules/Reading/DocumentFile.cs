using AirwayGuard.Core.Diagnostics;

namespace AirwayGuard.Rules.Reading;

/// <summary>Reads a document's file into memory once, at most a byte more than is allowed.</summary>
internal static class DocumentFile
{
    /// <param name="meanwhile">What else happens to the file while it is read, for tests.</param>
    /// <returns>The bytes, or the code of why there are none.</returns>
    public static (ReadOnlyMemory<byte> Bytes, DiagnosticCode? Fault) Read(string path, Action? meanwhile = null)
    {
        // Opening a pipe would wait for its writer.
        if (FileKinds.Of(path) == FileKind.Other)
        {
            return (default, Codes.NotARegularFile);
        }

        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            var before = StateOf(file, path);
            var bytes = new byte[DocumentText.MostBytes + 1];
            var length = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            meanwhile?.Invoke();
            // Half of one version and half of the next would be a rule set that nobody wrote.
            return StateOf(file, path) == before && (length > DocumentText.MostBytes || length == before.Length)
                ? (bytes.AsMemory(0, length), null)
                : (default, Codes.RuleSetChanging);
        }
        catch (Exception missing) when (missing is FileNotFoundException or DirectoryNotFoundException)
        {
            return (default, Codes.RuleSetMissing);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return (default, Codes.RuleSetUnreadable);
        }
    }

    private static (long Length, DateTime Written) StateOf(FileStream file, string path) => (file.Length, File.GetLastWriteTimeUtc(path));
}
