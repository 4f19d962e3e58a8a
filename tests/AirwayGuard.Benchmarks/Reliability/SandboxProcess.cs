using AirwayGuard.Benchmarks.Harness;
using AirwayGuard.TestKit.Kills;

namespace AirwayGuard.Benchmarks.Reliability;

/// <summary>The sandbox in a process of its own, durable as it ships.</summary>
internal sealed class SandboxProcess : IDisposable
{
    public const string Name = "sandbox";

    private readonly ProgramAgain _process;

    private SandboxProcess(ProgramAgain process) => (_process, Address) = (process, new Uri(process.FirstLine));

    public Uri Address { get; }

    public static async Task<SandboxProcess> StartAsync() => new(await ProgramAgain.StartAsync(Name));

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

    public void Dispose() => _process.Dispose();
}
