namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>Runs one run of a scenario through <c>check</c> and tells how its outcome differs.</summary>
public static class ScenarioRunner
{
    /// <summary>A scenario's input: one Bundle, or one resource per line.</summary>
    private static readonly string[] InputNames = ["input.json", "rows.ndjson"];

    /// <summary>Differences between the expected outcome and that of <paramref name="check"/>, none where they are equal.</summary>
    /// <param name="folder">The scenario's folder.</param>
    /// <param name="check">Takes the command line, verb included; gives exit code, standard output and standard error.</param>
    public static async Task<IReadOnlyList<string>> RunAsync(string folder, ExpectedRun run, Func<string[], Task<(int Exit, string Stdout, string Stderr)>> check)
    {
        var (exit, stdout, stderr) = await check(Arguments(folder, run));
        var differences = new List<string>();
        if (exit != run.Exit)
        {
            differences.Add($"exit: expected {run.Exit}, got {exit}");
        }

        differences.AddRange(CheckComparer.Differences(stdout, run));
        if (differences.Count > 0 && stderr.Length > 0)
        {
            differences.Add("standard error: " + stderr.Trim());
        }

        return differences;
    }

    /// <summary>The one input file of a scenario's folder.</summary>
    public static string InputOf(string folder) => InputNames.Select(name => Path.Combine(folder, name)).Single(File.Exists);

    private static string[] Arguments(string folder, ExpectedRun run)
    {
        List<string> arguments = ["check", InputOf(folder), "--format", "json", "--rules", run.Rules];
        if (run.AsOf is not null)
        {
            arguments.AddRange(["--as-of", run.AsOf]);
        }

        if (run.UnknownAge is not null)
        {
            arguments.AddRange(["--unknown-age", run.UnknownAge]);
        }

        return [.. arguments];
    }
}
