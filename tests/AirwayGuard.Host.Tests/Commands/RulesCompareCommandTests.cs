using System.Text.Json;
using AirwayGuard.Host.Tests.Scenarios;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class RulesCompareCommandTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task ComparePrintsTheSentenceThatACommitteeApproves()
    {
        var (exit, stdout, stderr) = await CompareAsync("strict-ranges", "guideline-2022");

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        Assert.Contains("Adult vacuum ceiling: 150 mmHg or less becomes below 200 mmHg", stdout, StringComparison.Ordinal);
        Assert.DoesNotContain("mm[Hg]", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CompareAsJsonSaysTheSame()
    {
        var (exit, stdout, _) = await CompareAsync("strict-ranges", "guideline-2022", "--format", "json");

        Assert.Equal(0, exit);
        using var json = JsonDocument.Parse(stdout);
        Assert.Equal("guideline-2022", json.RootElement.GetProperty("to").GetProperty("name").GetString());
        Assert.Equal(7, json.RootElement.GetProperty("sums").GetProperty("limits").GetProperty("looser").GetInt32());
    }

    [Fact]
    public async Task AFileIsComparedWithAShippedSetByItsPath()
    {
        var site = _folder.File("site.yaml", Document);

        var (exit, stdout, stderr) = await CompareAsync(site, "strict-ranges");

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        Assert.StartsWith("Lindenhof (lindenhof 1.0.0) becomes Strict ranges (strict-ranges 1.0.0)", stdout, StringComparison.Ordinal);
        Assert.Contains("Adult vacuum ceiling: 110 mmHg or less becomes 150 mmHg or less (looser)", stdout, StringComparison.Ordinal);
        Assert.Contains("47 checks added", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFaultyFileIsToldWithItsFaultsOnStandardError()
    {
        var (exit, stdout, stderr) = await CompareAsync("strict-ranges", _folder.File("site.yaml", Document.Replace("110 mm[Hg]", "110 s", StringComparison.Ordinal)));

        Assert.Equal(1, exit);
        Assert.Empty(stdout);
        Assert.Contains("AG3206", stderr, StringComparison.Ordinal);
        Assert.Contains("1 fault", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFileThatIsNotThereExitsTwo() => Assert.Equal(2, (await CompareAsync("strict-ranges", _folder.Of("none.yaml"))).Exit);

    [Theory]
    [InlineData()]
    [InlineData("strict-ranges")]
    [InlineData("strict-ranges", "guideline-2022", "strict-ranges")]
    [InlineData("strict-ranges", "guideline-2022", "--format", "fhir")]
    [InlineData("strict-ranges", "guideline-2022", "--rules", "strict-ranges")]
    public async Task WrongUsageExits64AndPrintsNothing(params string[] arguments)
    {
        var (exit, stdout, stderr) = await CompareAsync(arguments);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.NotEmpty(stderr);
    }

    private static string Document => SiteRules.With("110");

    private static Task<(int Exit, string Stdout, string Stderr)> CompareAsync(params string[] arguments) => InProcessCheck.RunAsync(["rules", "compare", .. arguments]);
}
