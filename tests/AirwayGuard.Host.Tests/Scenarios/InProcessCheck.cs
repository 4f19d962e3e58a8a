using AirwayGuard.Host.Commands;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Runs a command line in this process, as the program does, with its output caught.</summary>
internal static class InProcessCheck
{
    public static async Task<(int Exit, string Stdout, string Stderr)> RunAsync(string[] args)
    {
        await using var output = new StringWriter();
        await using var errors = new StringWriter();
        var exit = await CommandLine.RunAsync(args, output, errors);
        return (exit, output.ToString(), errors.ToString());
    }
}
