using System.Runtime.InteropServices;

namespace AirwayGuard.Storage.Tests;

/// <summary>Work done as an account that owns nothing, where the tests run as one that may do all; else as their own.</summary>
internal static class OtherAccount
{
    private const uint Nobody = 65_534;

    /// <summary>On a thread of its own, since Linux gives and takes the right to files thread by thread.</summary>
    /// <param name="work">What it does before it first waits is done as that account.</param>
    public static Task<T> Run<T>(Func<Task<T>> work)
    {
        Task<T>? begun = null;
        var thread = new Thread(() =>
        {
            _ = BecomeForFiles(Nobody);
            begun = work();
        });
        thread.Start();
        thread.Join();
        return begun!;
    }

    [DllImport("libc", EntryPoint = "setfsuid")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int BecomeForFiles(uint account);
}
