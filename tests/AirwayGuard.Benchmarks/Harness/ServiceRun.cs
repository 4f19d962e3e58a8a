using System.Runtime.InteropServices;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>A measure of the built service in a process of its own, which must not outlive this one.</summary>
internal static class ServiceRun
{
    public const string Built = "src/AirwayGuard.Host/bin/Release/net10.0/airwayguard.dll";

    /// <returns>Exit: 0, 1 where a signal cut it off, 2 where the service is not built.</returns>
    public static async Task<int> RunAsync(string service, Func<Task> measure, TextWriter errors)
    {
        if (!File.Exists(service))
        {
            await errors.WriteLineAsync($"{service} is not there: build the service first, and run this from the repository's root.");
            return 2;
        }

        var isStopped = false;
        using var asked = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        using var interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        try
        {
            await measure();
            return 0;
        }
        catch (Exception ended) when (Volatile.Read(ref isStopped) && ended is InvalidOperationException or HttpRequestException)
        {
            await errors.WriteLineAsync("stopped; what stands above was measured to its end, the rest was not");
            return 1;
        }

        // Without the service the measure under way comes to an end, which removes its folders.
        void Stop(PosixSignalContext signal)
        {
            Volatile.Write(ref isStopped, true);
            signal.Cancel = ServiceProcess.EndAll() + ProgramAgain.EndAll() > 0;
        }
    }
}
