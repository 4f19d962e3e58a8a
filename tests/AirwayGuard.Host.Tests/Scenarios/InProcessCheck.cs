using AirwayGuard.Host.Commands;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Runs a command line in this process, as the program does, with its output caught.</summary>
internal static class InProcessCheck
{
    public static (int Exit, string Stdout, string Stderr) Run(string[] args)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        var exit = CommandLine.RunAsync(args, output, errors).GetAwaiter().GetResult();
        return (exit, output.ToString(), errors.ToString());
    }
}
