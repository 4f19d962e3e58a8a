using System.Diagnostics;

namespace AirwayGuard.Benchmarks.EngineMutants;

/// <summary>One program run to its end, with everything it wrote; it does not outlive its limit or this process's end.</summary>
internal static class ChildProcess
{
    /// <returns>Null where it did not end within the limit and was ended.</returns>
    public static async Task<(int Exit, string Output)?> RunAsync(string folder, TimeSpan limit, IReadOnlyList<string> arguments, CancellationToken stop)
    {
        var info = new ProcessStartInfo("dotnet", arguments)
        {
            WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true, RedirectStandardInput = true, UseShellExecute = false,
        };
        // What starts this process may have set these for its own build.
        info.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        info.Environment["DOTNET_CLI_USE_MSBUILD_SERVER"] = "0";
        using var process = Process.Start(info)!;
        process.StandardInput.Close();
        var (output, errors) = (process.StandardOutput.ReadToEndAsync(CancellationToken.None), process.StandardError.ReadToEndAsync(CancellationToken.None));
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(stop);
        ends.CancelAfter(limit);
        try
        {
            await process.WaitForExitAsync(ends.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync(CancellationToken.None);
            stop.ThrowIfCancellationRequested();
            return null;
        }

        return (process.ExitCode, await output + await errors);
    }
}
