using System.Runtime.InteropServices;
using System.Text;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>Makes named pipes, which no writer ever opens.</summary>
internal static class Pipes
{
    public static void Make(string path)
    {
        if (MakeFifo(Encoding.UTF8.GetBytes(path + '\0'), 0x180) != 0)
        {
            throw new IOException("The pipe could not be made.");
        }
    }

    [DllImport("libc", EntryPoint = "mkfifo")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int MakeFifo(byte[] path, uint mode);
}
