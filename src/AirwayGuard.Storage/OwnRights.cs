namespace AirwayGuard.Storage;

/// <summary>What holds patient data is made for its own account alone, where the system knows such rights.</summary>
internal static class OwnRights
{
    private const UnixFileMode OwnFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;
    private const UnixFileMode OwnFolder = OwnFile | UnixFileMode.UserExecute;
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute;

    /// <summary>Makes a folder and those it lies in where they are missing.</summary>
    public static void MakeFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
            return;
        }

        // The rights asked for are given to the last of several only.
        if (Path.GetDirectoryName(Path.GetFullPath(folder)) is { } outer && !Directory.Exists(outer))
        {
            MakeFolder(outer);
        }

        Directory.CreateDirectory(folder, OwnFolder);
    }

    /// <summary>Opens a file for reading and writing, making it where it is missing.</summary>
    public static FileStream OpenOrMake(string file, FileShare share)
    {
        var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite, Share = share };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnFile;
        }

        return new FileStream(file, options);
    }

    /// <summary>Whether other accounts may look into a folder, given that they get to it.</summary>
    public static bool IsOpenToOthers(string folder) => !OperatingSystem.IsWindows() && (File.GetUnixFileMode(folder) & Others) != UnixFileMode.None;
}
