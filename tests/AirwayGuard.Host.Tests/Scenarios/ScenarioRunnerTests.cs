using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

public sealed class ScenarioRunnerTests
{
    private const string Nothing =
        """{"judged":{"passes":0,"sessions":0,"orders":0,"settings":0},"findings":[],"cannotTell":[],"problems":[]}""";

    [Fact]
    public void The_command_line_names_input_and_rule_set()
    {
        var seen = Arguments("null", "null");

        Assert.Equal(["check", "input.json", "--format", "json", "--rules", "strict-ranges"], seen);
    }

    [Fact]
    public void Options_are_given_where_the_run_has_them()
    {
        var seen = Arguments("\"2026-03-10T10:00:00+01:00\"", "\"strictest-band\"");

        Assert.Equal(["--as-of", "2026-03-10T10:00:00+01:00", "--unknown-age", "strictest-band"], seen[6..]);
    }

    [Fact]
    public void Another_exit_code_is_a_difference_and_standard_error_is_shown_beside_it() =>
        InFolder("null", "null", (folder, run) => Assert.Equal(
            ["exit: expected 0, got 2", "standard error: AG2001"],
            ScenarioRunner.Run(folder, run, _ => (2, Nothing, "AG2001\n"))));

    [Fact]
    public void Standard_error_alone_is_no_difference() =>
        InFolder("null", "null", (folder, run) => Assert.Empty(ScenarioRunner.Run(folder, run, _ => (0, Nothing, "a note"))));

    private static string[] Arguments(string asOf, string unknownAge)
    {
        string[] seen = [];
        InFolder(asOf, unknownAge, (folder, run) => Assert.Empty(ScenarioRunner.Run(folder, run, arguments =>
        {
            seen = arguments;
            return (0, Nothing, "");
        })));
        seen[1] = Path.GetFileName(seen[1]);
        return seen;
    }

    private static void InFolder(string asOf, string unknownAge, Action<string, ExpectedRun> body)
    {
        var folder = Directory.CreateTempSubdirectory("airwayguard-scenario-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "input.json"), "{}");
            File.WriteAllText(
                Path.Combine(folder, ExpectedScenario.FileName),
                $$"""
                {"why":"w","covers":[],"runs":[{"rules":"strict-ranges","asOf":{{asOf}},"unknownAge":{{unknownAge}},"exit":0,
                "judged":{"passes":0,"sessions":0,"orders":0,"settings":0},"findings":[],"cannotTell":[],"problems":[]}]}
                """);
            body(folder, ExpectedScenario.Read(folder).Runs[0]);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
