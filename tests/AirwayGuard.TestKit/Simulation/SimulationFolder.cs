namespace AirwayGuard.TestKit.Simulation;

/// <summary>
/// A folder for one simulation, removed afterwards. In memory where the system offers that: the end of a process that is played
/// here leaves the system standing, so nothing hangs on what a disk had taken.
/// </summary>
internal sealed class SimulationFolder : IDisposable
{
    private const string InMemory = "/dev/shm";
    private readonly string _path;

    public SimulationFolder()
    {
        var parent = Directory.Exists(InMemory) ? InMemory : Path.GetTempPath();
        _path = Path.Combine(parent, "airwayguard-simulation-" + Path.GetRandomFileName());
        Directory.CreateDirectory(_path);
    }

    public string Sub(string name)
    {
        var path = Path.Combine(_path, name);
        Directory.CreateDirectory(path);
        return path;
    }

    public void Dispose() => Directory.Delete(_path, recursive: true);
}
