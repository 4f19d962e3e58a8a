using System.CommandLine;

namespace AirwayGuard.Host.Commands;

/// <summary>The verbs. Data goes to standard output, everything else to standard error.</summary>
internal static class CommandLine
{
    public static async Task<int> RunAsync(string[] args)
    {
        var root = new RootCommand(
            "AirwayGuard judges airway-suction orders, charting and regulator settings against a hospital's policy. "
            + "It is no alarm and no treatment advice. With no verb it runs the service.");
        root.Subcommands.Add(CheckCommand.Build());
        root.Subcommands.Add(RulesCommand.Build());
        var parsed = root.Parse(args);
        if (parsed.Errors.Count == 0)
        {
            return await parsed.InvokeAsync();
        }

        foreach (var error in parsed.Errors)
        {
            await Console.Error.WriteLineAsync(error.Message);
        }

        await Console.Error.WriteLineAsync("airwayguard --help lists the verbs; airwayguard VERB --help their options.");
        return ExitCodes.Usage;
    }
}
