using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

/// <summary>
/// Writes the counts of the checks a scenario is not about, and its exit code, into its expectation when asked to
/// (<c>AIRWAYGUARD_WRITE_SCENARIOS=1</c>). What a scenario is about is written by hand, and the difference is read before it is committed.
/// </summary>
public sealed partial class ScenarioWriter
{
    [Fact]
    public async Task EveryScenarioCountsTheChecksItIsNotAbout()
    {
        var folders = Environment.GetEnvironmentVariable("AIRWAYGUARD_WRITE_SCENARIOS") == "1" ? ScenarioFolders.All : [];
        foreach (var folder in folders)
        {
            await WriteAsync(folder);
        }

        Assert.All(ScenarioFolders.All, folder => Assert.All(ExpectedScenario.Read(folder).Runs, run => Assert.NotNull(run.Others)));
    }

    private static async Task WriteAsync(string folder)
    {
        var path = Path.Combine(folder, ExpectedScenario.FileName);
        var text = Written().Replace(await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), "");
        // Without the counts every check would have to be listed; an empty one makes the runs list only what they cover.
        var runs = ExpectedScenario.Parse(Problems().Replace(text, "\"others\": {},\n      \"problems\":")).Runs;
        var counts = new List<(string Others, int Exit)>();
        foreach (var run in runs)
        {
            var (exit, stdout) = await OutputAsync(folder, run);
            using var output = JsonDocument.Parse(stdout);
            counts.Add((OtherChecks.Count(output.RootElement, run).ToJsonString(), exit));
        }

        var (at, exits) = (0, 0);
        text = Problems().Replace(text, _ => $"\"others\": {counts[at++].Others},\n      \"problems\":");
        text = Exit().Replace(text, _ => string.Create(CultureInfo.InvariantCulture, $"\"exit\": {counts[exits++].Exit}"));
        await File.WriteAllTextAsync(path, text, TestContext.Current.CancellationToken);
    }

    private static async Task<(int Exit, string Stdout)> OutputAsync(string folder, ExpectedRun run)
    {
        var (exit, stdout) = (0, "");
        await ScenarioRunner.RunAsync(folder, run, async arguments =>
        {
            var result = await InProcessCheck.RunAsync(arguments);
            (exit, stdout) = (result.Exit, result.Stdout);
            return result;
        });
        return (exit, stdout);
    }

    [GeneratedRegex("\"others\": \\{.*\\},\\n *", RegexOptions.NonBacktracking)]
    private static partial Regex Written();

    [GeneratedRegex("\"problems\":", RegexOptions.NonBacktracking)]
    private static partial Regex Problems();

    [GeneratedRegex("\"exit\": [0-9]+", RegexOptions.NonBacktracking)]
    private static partial Regex Exit();
}
