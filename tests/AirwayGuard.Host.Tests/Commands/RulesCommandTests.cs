using AirwayGuard.Host.Tests.Scenarios;
using AirwayGuard.Rules;
using Xunit;

namespace AirwayGuard.Host.Tests.Commands;

public sealed class RulesCommandTests : IDisposable
{
    private readonly GivenFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("strict-ranges")]
    [InlineData("guideline-2022")]
    public async Task ListNamesEveryCheckOfTheSet(string set)
    {
        var (exit, stdout, stderr) = await RulesAsync("list", "--rules", set);

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        Assert.All(ShippedRuleSets.Load(set).RuleSet!.Rules, rule => Assert.Contains("\n" + rule.Id + " ", stdout, StringComparison.Ordinal));
        Assert.Contains("local policy", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ListWithoutASetTakesTheDefault() => Assert.Equal(await RulesAsync("list", "--rules", "strict-ranges"), await RulesAsync("list"));

    [Fact]
    public async Task ShowGivesLimitPerBandWithSourceStatusAndWhatEndsIt()
    {
        var (exit, stdout, stderr) = await RulesAsync("show", "vacuum-above-ceiling");

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        Assert.All(
            ["neonate: above 80 mm[Hg]", "infant: above 100 mm[Hg]", "child: above 120 mm[Hg]", "adult: above 150 mm[Hg]", "[nsw-aci-2014]", "FROM MEMORY", "Ends with"],
            words => Assert.Contains(words, stdout, StringComparison.Ordinal));
    }

    [Fact]
    public async Task ShowOfAnUnknownCheckNamesTheNearOneOnStandardError()
    {
        var (exit, stdout, stderr) = await RulesAsync("show", "vacuum-above-cieling");

        Assert.Equal(2, exit);
        Assert.Empty(stdout);
        Assert.Contains("Did you mean vacuum-above-ceiling?", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ShowOfNothingLikeACheckHasACodeAndSaysWhatToDo()
    {
        var (exit, _, stderr) = await RulesAsync("show", "nope");

        Assert.Equal(2, exit);
        Assert.Equal("AG3013  strict-ranges: there is no check 'nope'. Give an id that rules list names." + Environment.NewLine, stderr);
    }

    [Theory]
    [InlineData("list", "--rules", "")]
    [InlineData("show", "vacuum-above-ceiling", "--rules", " ")]
    [InlineData("lint", "")]
    public async Task ABlankNameOfASetIsToldAsMissing(params string[] arguments)
    {
        var (exit, stdout, stderr) = await RulesAsync(arguments);

        Assert.Equal(2, exit);
        Assert.Contains("rule set: AG3001 Neither a name nor a path is given.", stdout + stderr, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("list", "--rules", "strict-range")]
    [InlineData("show", "vacuum-above-ceiling", "--rules", "strict-range")]
    public async Task AnUnknownSetIsToldOnStandardErrorWithTheNearName(params string[] arguments)
    {
        var (exit, stdout, stderr) = await RulesAsync(arguments);

        Assert.Equal(2, exit);
        Assert.Empty(stdout);
        Assert.Contains("AG3001", stderr, StringComparison.Ordinal);
        Assert.Contains("Did you mean strict-ranges?", stderr, StringComparison.Ordinal);
    }

    [Fact]
    public async Task LintOfASoundDocumentExitsZero()
    {
        var (exit, stdout, stderr) = await RulesAsync("lint", Site("150"));

        Assert.Equal(0, exit);
        Assert.Empty(stderr);
        Assert.Contains("clean; lindenhof 1.0.0, 1 check, sha256", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task LintTellsEveryFaultWithLineAndCode()
    {
        var (exit, stdout, _) = await RulesAsync("lint", _folder.File("site.yaml", SiteRules.With("150").Replace("severity: high", "severity: dire", StringComparison.Ordinal).Replace("mode: live", "mode: loud", StringComparison.Ordinal)));

        Assert.Equal(1, exit);
        Assert.Contains("AG3304", stdout, StringComparison.Ordinal);
        Assert.Contains("AG3307", stdout, StringComparison.Ordinal);
        Assert.Contains("2 faults", stdout, StringComparison.Ordinal);
    }

    [Fact]
    public async Task LintOfAMissingFileExitsTwo() => Assert.Equal(2, (await RulesAsync("lint", _folder.Of("none.yaml"))).Exit);

    [Theory]
    [InlineData("")]
    [InlineData("show")]
    [InlineData("lint")]
    [InlineData("frobnicate")]
    public async Task WrongUsageExits64(string arguments) =>
        Assert.Equal(64, (await RulesAsync(arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries))).Exit);

    [Theory]
    [InlineData("219", 1)]
    [InlineData("220", 0)]
    public async Task CheckJudgesByASitesOwnRuleSet(string ceiling, int exit)
    {
        var answer = await CheckAnswer.OfAsync(_folder.File("rows.ndjson", Given.Adult, Given.HighVacuum), "--rules", Site(ceiling));

        Assert.Equal(exit, answer.Exit);
        Assert.Equal("lindenhof", answer.Report.GetProperty("ruleSet").GetProperty("name").GetString());
    }

    [Fact]
    public async Task CheckWithAFaultyRuleSetExits64AndJudgesNothing()
    {
        var faulty = _folder.File("site.yaml", SiteRules.With("150").Replace("mm[Hg]", "mmHgg", StringComparison.Ordinal));

        var (exit, stdout, stderr) = await InProcessCheck.RunAsync(["check", _folder.File("rows.ndjson", Given.Adult), "--rules", faulty]);

        Assert.Equal(64, exit);
        Assert.Empty(stdout);
        Assert.Contains("AG320", stderr, StringComparison.Ordinal);
    }

    private static Task<(int Exit, string Stdout, string Stderr)> RulesAsync(params string[] arguments) => InProcessCheck.RunAsync(["rules", .. arguments]);

    private string Site(string ceiling) => _folder.File("site.yaml", SiteRules.With(ceiling));
}
