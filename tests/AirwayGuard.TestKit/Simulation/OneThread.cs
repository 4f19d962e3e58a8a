namespace AirwayGuard.TestKit.Simulation;

/// <summary>Waits for another thread's work on this one, so that whoever awaits goes on here, inline.</summary>
internal static class OneThread
{
    public static async Task<T> DoneAsync<T>(ValueTask<T> work)
    {
        var task = work.AsTask();
        WaitFor(task);
        return await task;
    }

    public static async Task DoneAsync(ValueTask work)
    {
        var task = work.AsTask();
        WaitFor(task);
        await task;
    }

    private static void WaitFor(IAsyncResult task) => task.AsyncWaitHandle.WaitOne();
}
