using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace AirwayGuard.TestKit.Kills;

/// <summary>The built service in a process of its own.</summary>
internal sealed class ServiceProcess : IDisposable
{
    private static readonly ConcurrentDictionary<ServiceProcess, bool> Running = [];

    private static readonly TimeSpan Often = TimeSpan.FromMilliseconds(50), LongestStart = TimeSpan.FromSeconds(180), LongestStop = TimeSpan.FromSeconds(30);

    private readonly Process _process;
    private readonly ServicePlace _place;
    private readonly TimeProvider _clock;
    private readonly ConcurrentQueue<string> _errors = [];
    private readonly long _began;

    private ServiceProcess(Process process, ServicePlace place, TimeProvider clock)
    {
        (_process, _place, _clock, _began) = (process, place, clock, clock.GetTimestamp());
        process.OutputDataReceived += static (_, _) => { };
        process.ErrorDataReceived += (_, line) => _errors.Enqueue(line.Data ?? "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        Running[this] = true;
    }

    /// <summary>Since it was started.</summary>
    public TimeSpan Age => _clock.GetElapsedTime(_began);

    /// <summary>It ended without being told to.</summary>
    public bool HasEnded => _process.HasExited;

    /// <summary>What it has used of the processors since it was started.</summary>
    public TimeSpan Worked
    {
        get
        {
            _process.Refresh();
            return _process.TotalProcessorTime;
        }
    }

    /// <summary>Lines of its log that tell of a fault of its own.</summary>
    public IEnumerable<string> Faults => _errors.Where(line => line.Contains(" ERR ", StringComparison.Ordinal) || line.Contains(" FTL ", StringComparison.Ordinal) || line.StartsWith("AG", StringComparison.Ordinal));

    public static ServiceProcess Start(ServicePlace place, TimeProvider clock) => new(Process.Start(InfoOf(place.Service, place.Arguments))!, place, clock);

    /// <summary>Runs a verb of the program to its end.</summary>
    public static async Task<(int Exit, string Output)> VerbAsync(string service, params string[] arguments)
    {
        using var verb = Process.Start(InfoOf(service, arguments))!;
        var (output, errors) = (verb.StandardOutput.ReadToEndAsync(), verb.StandardError.ReadToEndAsync());
        await verb.WaitForExitAsync();
        return (verb.ExitCode, $"{await output}{await errors}".Trim());
    }

    /// <summary>A port that was free a moment ago: the service must be found again at the same address after each start.</summary>
    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>Waits until it has asked for everything once and judged it; a claim of the life before must run out first.</summary>
    /// <returns>False if it ended, or is not ready in time: three minutes unless said otherwise.</returns>
    public async Task<bool> IsReadyAsync(TimeSpan? within = null)
    {
        using var http = new HttpClient();
        while (!HasEnded && Age < (within ?? LongestStart))
        {
            try
            {
                using var answer = await http.GetAsync(new Uri(_place.Address, "health/ready"));
                if (answer.IsSuccessStatusCode)
                {
                    return true;
                }
            }
            catch (HttpRequestException)
            {
                // Nobody listens there yet.
            }

            await Task.Delay(Often, _clock);
        }

        return false;
    }

    /// <summary>Done when it has ended.</summary>
    public Task EndedAsync() => _process.WaitForExitAsync();

    /// <summary>Ends it at once, whatever it does (SIGKILL).</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
    }

    /// <summary>Ends at once whichever this program started and has not let go of: for a signal, after which nobody else would.</summary>
    /// <returns>How many were running.</returns>
    public static int EndAll()
    {
        var ended = 0;
        foreach (var one in Running.Keys.Where(one => !one._process.HasExited))
        {
            one._process.Kill();
            ended++;
        }

        return ended;
    }

    /// <summary>Asks it to stop (SIGTERM).</summary>
    /// <returns>Its exit; null if it did not stop in time and was ended.</returns>
    public async Task<int?> StopAsync()
    {
        if (HasEnded)
        {
            return _process.ExitCode;
        }

        using var ask = Process.Start("sh", ["-c", string.Create(CultureInfo.InvariantCulture, $"kill -TERM {_process.Id}")]);
        using var limit = new CancellationTokenSource(LongestStop, _clock);
        try
        {
            await _process.WaitForExitAsync(limit.Token);
            return _process.ExitCode;
        }
        catch (OperationCanceledException) when (limit.IsCancellationRequested)
        {
            await KillAsync();
            return null;
        }
    }

    public void Dispose()
    {
        Running.TryRemove(this, out _);
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    private static ProcessStartInfo InfoOf(string service, IReadOnlyList<string> arguments)
    {
        var info = new ProcessStartInfo("dotnet", [service, .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true, UseShellExecute = false };
        // Only what is said here is set.
        foreach (var name in info.Environment.Keys.Where(name => name.StartsWith("AirwayGuard", StringComparison.OrdinalIgnoreCase) || name.StartsWith("ASPNETCORE_", StringComparison.Ordinal)).ToArray())
        {
            info.Environment.Remove(name);
        }

        return info;
    }
}
