namespace AirwayGuard.Benchmarks.Harness;

/// <summary>A folder for one measurement, removed afterwards.</summary>
internal sealed class ScratchFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("airwayguard-benchmark-").FullName;

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
