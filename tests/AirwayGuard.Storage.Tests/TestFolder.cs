namespace AirwayGuard.Storage.Tests;

/// <summary>A folder of its own for one test.</summary>
internal sealed class TestFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("ledger-").FullName;

    public static void SetMode(string path, UnixFileMode mode)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, mode);
        }
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
