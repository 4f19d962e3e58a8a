using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

/// <summary>A pipe that nobody writes to would hold the program for good.</summary>
public sealed class ConfiguredFilesTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("check ROWS --rules PIPE", 64)]
    [InlineData("check ROWS --map PIPE", 64)]
    [InlineData("rules list --rules PIPE", 2)]
    [InlineData("rules show vacuum-above-ceiling --rules PIPE", 2)]
    [InlineData("rules lint PIPE", 2)]
    [InlineData("check ROWS --rules /dev/zero", 64)]
    public async Task APipeOrDevice_AsRulesOrMap_IsRefusedUnopened(string line, int expected)
    {
        var pipe = _folder.Of("pipe");
        Pipes.Make(pipe);
        var rows = _folder.File("rows.ndjson", Given.Adult, Given.HighVacuum);

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(
            [.. line.Split(' ').Select(word => word switch { "PIPE" => pipe, "ROWS" => rows, _ => word })]);

        Assert.Equal(expected, exit);
        Assert.Contains("AG2002", stdout + stderr, StringComparison.Ordinal);
        Assert.DoesNotContain("vacuum", stdout, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nope.json", "Check the path")]
    [InlineData("/dev/zero", "copy the file in")]
    public async Task AMapThatCannotBeHad_SaysWhatToDo(string map, string advice)
    {
        var rows = _folder.File("rows.ndjson", Given.Adult);

        var (exit, _, stderr) = await InProcessCheck.RunAsync(["check", rows, "--map", map]);

        Assert.Equal(64, exit);
        Assert.Contains(advice, Assert.Single(stderr.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }
}
