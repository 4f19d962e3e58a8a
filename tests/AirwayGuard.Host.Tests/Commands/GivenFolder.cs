namespace AirwayGuard.Host.Tests.Commands;

/// <summary>A folder of one test, deleted after it.</summary>
internal sealed class GivenFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("airwayguard-check-").FullName;

    public string Of(string name) => System.IO.Path.Combine(Path, name);

    /// <summary>Writes a file of lines; gives its path.</summary>
    public string File(string name, params string[] lines) => File(name, System.Text.Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n"));

    public string File(string name, byte[] bytes)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(Of(name))!);
        System.IO.File.WriteAllBytes(Of(name), bytes);
        return Of(name);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
