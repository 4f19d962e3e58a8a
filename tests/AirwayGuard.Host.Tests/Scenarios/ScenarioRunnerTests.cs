using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

public sealed class ScenarioRunnerTests
{
    private const string Nothing =
        """{"judged":{"passes":0,"sessions":0,"orders":0,"settings":0},"findings":[],"cannotTell":[],"problems":[]}""";

    [Fact]
    public async Task The_command_line_names_input_and_rule_set()
    {
        var seen = await ArgumentsAsync("null", "null");

        Assert.Equal(["check", "input.json", "--format", "json", "--rules", "strict-ranges"], seen);
    }

    [Fact]
    public async Task Options_are_given_where_the_run_has_them()
    {
        var seen = await ArgumentsAsync("\"2026-03-10T10:00:00+01:00\"", "\"strictest-band\"");

        Assert.Equal(["--as-of", "2026-03-10T10:00:00+01:00", "--unknown-age", "strictest-band"], seen[6..]);
    }

    [Fact]
    public Task Another_exit_code_is_a_difference_and_standard_error_is_shown_beside_it() =>
        InFolderAsync("null", "null", async (folder, run) => Assert.Equal(
            ["exit: expected 0, got 2", "standard error: AG2001"],
            await ScenarioRunner.RunAsync(folder, run, _ => Task.FromResult((2, Nothing, "AG2001\n")))));

    [Fact]
    public Task Standard_error_alone_is_no_difference() =>
        InFolderAsync("null", "null", async (folder, run) => Assert.Empty(await ScenarioRunner.RunAsync(folder, run, _ => Task.FromResult((0, Nothing, "a note")))));

    private static async Task<string[]> ArgumentsAsync(string asOf, string unknownAge)
    {
        string[] seen = [];
        await InFolderAsync(asOf, unknownAge, async (folder, run) => Assert.Empty(await ScenarioRunner.RunAsync(folder, run, arguments =>
        {
            seen = arguments;
            return Task.FromResult((0, Nothing, ""));
        })));
        seen[1] = Path.GetFileName(seen[1]);
        return seen;
    }

    private static async Task InFolderAsync(string asOf, string unknownAge, Func<string, ExpectedRun, Task> body)
    {
        var folder = Directory.CreateTempSubdirectory("airwayguard-scenario-").FullName;
        try
        {
            await File.WriteAllTextAsync(Path.Combine(folder, "input.json"), "{}");
            await File.WriteAllTextAsync(
                Path.Combine(folder, ExpectedScenario.FileName),
                $$"""
                {"why":"w","covers":[],"runs":[{"rules":"strict-ranges","asOf":{{asOf}},"unknownAge":{{unknownAge}},"exit":0,
                "judged":{"passes":0,"sessions":0,"orders":0,"settings":0},"findings":[],"cannotTell":[],"problems":[]}]}
                """);
            await body(folder, ExpectedScenario.Read(folder).Runs[0]);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
