using System.CommandLine;

namespace AirwayGuard.Host.Commands;

/// <summary>The verbs. Data goes to standard output, everything else to standard error.</summary>
internal static class CommandLine
{
    public static async Task<int> RunAsync(string[] args, TextWriter output, TextWriter errors)
    {
        var root = new RootCommand(
            "AirwayGuard judges airway-suction orders, charting and regulator settings against a hospital's policy. "
            + "It is no alarm and no treatment advice. With no verb it runs the service.");
        root.Subcommands.Add(CheckCommand.Build(output, errors));
        root.Subcommands.Add(RulesCommand.Build(output, errors));
        root.Subcommands.Add(AuditCommand.Build(output, errors));
        root.Subcommands.Add(ExplainCommand.Build(output, errors));
        root.Subcommands.Add(SurveyCommand.Build(output, errors));
        root.Subcommands.Add(OverridesCommand.Build(output, errors));
        root.Subcommands.Add(ParkedCommand.Build(output, errors));
        var parsed = root.Parse(args);
        if (parsed.Errors.Count == 0)
        {
            return await parsed.InvokeAsync(new InvocationConfiguration
            {
                Output = output, Error = errors,
                // The library's handler prints the exception with its message and exits 1, which here says that a breach was found.
                EnableDefaultExceptionHandler = false,
            });
        }

        foreach (var problem in UsageProblems.Of(parsed))
        {
            await errors.WriteLineAsync(ProblemLine.Of(problem));
        }

        return ExitCodes.Usage;
    }
}
