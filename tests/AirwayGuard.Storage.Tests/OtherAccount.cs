using System.Runtime.InteropServices;

namespace AirwayGuard.Storage.Tests;

/// <summary>Work done as an account that owns nothing, where the tests run as one that may do all; else as their own.</summary>
internal static class OtherAccount
{
    private const uint Nobody = 65_534;

    /// <summary>On a thread of its own, since Linux gives and takes the right to files thread by thread.</summary>
    public static T Run<T>(Func<T> work)
    {
        var result = default(T);
        var thread = new Thread(() =>
        {
            _ = BecomeForFiles(Nobody);
            result = work();
        });
        thread.Start();
        thread.Join();
        return result!;
    }

    [DllImport("libc", EntryPoint = "setfsuid")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int BecomeForFiles(uint account);
}
