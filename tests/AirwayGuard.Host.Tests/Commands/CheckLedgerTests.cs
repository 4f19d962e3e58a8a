using AirwayGuard.Core.Charting;
using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Storage;
using AirwayGuard.TestKit.Histories;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class CheckLedgerTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public static TheoryData<string> Scenarios => [.. ScenarioFolders.All.Select(folder => Path.GetFileName(folder)!)];

    public static TheoryData<int> Blocks => [0, 1, 2, 3];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Scenarios))]
    public async Task AScenarioThroughALedgerPrintsTheSame(string name)
    {
        var folder = ScenarioFolders.All.Single(one => Path.GetFileName(one) == name);
        await SameAsync(ScenarioRunner.InputOf(folder), name);
    }

    [Theory]
    [MemberData(nameof(Blocks))]
    public async Task ARandomHistoryThroughALedgerPrintsTheSame(int block)
    {
        for (var seed = block * 15; seed < (block + 1) * 15; seed++)
        {
            var rows = HistoryRenderer.Render(HistoryGenerator.Next(seed));
            await SameAsync(_folder.File($"seed-{seed}.ndjson", [.. rows]), $"seed {seed}");
        }
    }

    [Fact]
    public async Task AFolderThatIsNotEmptyIsRefused()
    {
        var input = _folder.File("rows.ndjson", Given.Adult, Given.HighVacuum);
        _folder.File("full/note.txt", "x");

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", input, "--ledger", _folder.Of("full")]);

        Assert.Equal(2, exit);
        Assert.Empty(stdout);
        Assert.StartsWith("AG1010", stderr, StringComparison.Ordinal);
        Assert.Equal(["note.txt"], Directory.GetFileSystemEntries(_folder.Of("full")).Select(path => Path.GetFileName(path)).ToArray());
    }

    [Fact]
    public async Task AFileInTheFoldersPlaceIsRefused()
    {
        var input = _folder.File("rows.ndjson", Given.Adult, Given.HighVacuum);

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", input, "--ledger", input]);

        Assert.Equal(2, exit);
        Assert.Empty(stdout);
        Assert.StartsWith("AG1", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheLedgerIsLeftBehindAndOpensAgainWithWhatWasRead()
    {
        var input = _folder.File("rows.ndjson", Given.Adult, Given.HighVacuum);
        await InProcessCheck.RunAsync(["check", input, "--ledger", _folder.Of("ledger")]);

        await using var ledger = await SqliteLedger.OpenAsync(_folder.Of("ledger"), new SqliteLedgerOptions(), SystemClock.Instance);
        var state = await ledger.StateAsync(TestContext.Current.CancellationToken);
        var last = await ledger.ArrivalAsync(state.Newest, TestContext.Current.CancellationToken);

        Assert.Equal(new Position(2), state.Newest);
        Assert.Equal("high", last!.Id);
    }

    private async Task SameAsync(string input, string what)
    {
        foreach (var format in new[] { "json", "text" })
        {
            var memory = await InProcessCheck.RunAsync(["check", input, "--format", format]);
            var ledger = await InProcessCheck.RunAsync(["check", input, "--format", format, "--ledger", _folder.Of($"{what} {format}")]);

            Assert.True(memory == ledger, $"{what}, {format}: the ledger's report differs.{Environment.NewLine}{memory.Stdout}{Environment.NewLine}{ledger.Stdout}{ledger.Stderr}");
        }
    }
}
