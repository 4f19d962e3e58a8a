using System.Runtime.InteropServices;
using System.Text;

namespace AirwayGuard.Rules.Reading;

/// <summary>What stands at a path.</summary>
public enum FileKind
{
    Missing, Regular, Other,
}

/// <summary>
/// What a path is, without opening it: opening a pipe waits for its writer. .NET does not tell a pipe from a file, so Linux is
/// asked by statx, whose answer is laid out alike on every architecture.
/// </summary>
public static class FileKinds
{
    private const int CurrentFolder = -100, TypeMask = 0xF000, RegularType = 0x8000, ModeOffset = 28;

    /// <summary>Links are followed.</summary>
    public static FileKind Of(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (!File.Exists(path))
        {
            return FileKind.Missing;
        }

        if (!OperatingSystem.IsLinux())
        {
            return FileKind.Regular;
        }

        var answer = new byte[256];
        return Statx(CurrentFolder, Encoding.UTF8.GetBytes(path + '\0'), 0, 1, answer) != 0
            ? FileKind.Missing
            : (BitConverter.ToUInt16(answer, ModeOffset) & TypeMask) == RegularType ? FileKind.Regular : FileKind.Other;
    }

    [DllImport("libc", EntryPoint = "statx")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Statx(int folder, byte[] path, int flags, uint mask, byte[] answer);
}
