using System.Collections.Concurrent;
using System.Diagnostics;

namespace AirwayGuard.Benchmarks.Harness;

/// <summary>This program in one more process, at a verb that nobody is told of. It says one line once it is there, answers a line with a line, and ends with its standard input.</summary>
internal sealed class ProgramAgain : IDisposable
{
    private static readonly ConcurrentDictionary<ProgramAgain, bool> Running = [];

    private readonly Process _process;

    private ProgramAgain(Process process, string firstLine)
    {
        (_process, FirstLine) = (process, firstLine);
        Running[this] = true;
    }

    public string FirstLine { get; }

    /// <param name="serverHeaps">Collects garbage as a server does, with a heap for each core.</param>
    /// <exception cref="InvalidOperationException">It ended without a line.</exception>
    public static async Task<ProgramAgain> StartAsync(string verb, bool serverHeaps = false)
    {
        var info = new ProcessStartInfo("dotnet", [typeof(ProgramAgain).Assembly.Location, verb]) { RedirectStandardInput = true, RedirectStandardOutput = true, UseShellExecute = false };
        info.Environment["DOTNET_gcServer"] = serverHeaps ? "1" : "0";
        var process = Process.Start(info)!;
        return await process.StandardOutput.ReadLineAsync() is { } line ? new ProgramAgain(process, line) : throw new InvalidOperationException($"The process of {verb} did not start.");
    }

    /// <exception cref="InvalidOperationException">It ended.</exception>
    public async Task<string> AskAsync(string line)
    {
        await _process.StandardInput.WriteLineAsync(line);
        await _process.StandardInput.FlushAsync();
        return await _process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("The process ended before it answered.");
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
