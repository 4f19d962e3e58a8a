using System.Collections.Concurrent;
using System.Diagnostics;
using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>The sandbox in a process of its own, durable as it ships. This program started again as <c>sandbox</c>; it ends with its standard input.</summary>
internal sealed class SandboxProcess : IDisposable
{
    public const string Name = "sandbox";

    private static readonly ConcurrentDictionary<SandboxProcess, bool> Running = [];

    private readonly Process _process;

    private SandboxProcess(Process process, Uri address)
    {
        (_process, Address) = (process, address);
        Running[this] = true;
    }

    public Uri Address { get; }

    public static async Task<SandboxProcess> StartAsync()
    {
        var info = new ProcessStartInfo("dotnet", [typeof(SandboxProcess).Assembly.Location, Name]) { RedirectStandardInput = true, RedirectStandardOutput = true, UseShellExecute = false };
        var process = Process.Start(info)!;
        var line = await process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("The sandbox's process did not start.");
        return new SandboxProcess(process, new Uri(line));
    }

    /// <summary>What the process does.</summary>
    public static async Task<int> ServeAsync(TextReader input, TextWriter output)
    {
        using var folder = new ScratchFolder();
        await using (var server = await ServedSandbox.StartAsync(folder.Path, MachineClock.Instance))
        {
            await output.WriteLineAsync(server.Address.AbsoluteUri);
            await output.FlushAsync();
            await input.ReadToEndAsync();
        }

        return 0;
    }

    /// <summary>Lets each end that this program started and has not let go of.</summary>
    /// <returns>How many there were.</returns>
    public static int EndAll()
    {
        foreach (var one in Running.Keys)
        {
            one._process.StandardInput.Close();
        }

        return Running.Count;
    }

    public void Dispose()
    {
        Running.TryRemove(this, out _);
        _process.StandardInput.Close();
        if (!_process.WaitForExit(TimeSpan.FromSeconds(10)))
        {
            _process.Kill();
        }

        _process.Dispose();
    }
}
