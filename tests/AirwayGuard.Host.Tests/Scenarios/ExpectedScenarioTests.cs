using System.Globalization;
using System.Reflection;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules;
using Xunit;

namespace AirwayGuard.Host.Tests.Scenarios;

public sealed class ExpectedScenarioTests
{
    private static readonly RuleSet Shipped = ShippedRuleSets.Load("strict-ranges").RuleSet!;

    private static readonly string[] Checks = [.. Shipped.Rules.Select(rule => rule.Id)];

    // Silent ones are never printed.
    private static readonly string[] Live = [.. Shipped.Rules.Where(rule => rule.Mode == Mode.Live).Select(rule => rule.Id)];

    public static TheoryData<string> Folders => [.. ScenarioFolders.All.Select(folder => Path.GetFileName(folder)!)];

    [Theory]
    [MemberData(nameof(Folders))]
    public void Each_scenario_reads_and_says_what_it_covers(string name)
    {
        var folder = Path.Combine(ScenarioFolders.Root, name);
        var scenario = ExpectedScenario.Read(folder);

        Assert.NotEmpty(scenario.Why);
        Assert.DoesNotContain('\n', scenario.Why);
        Assert.NotEmpty(scenario.Runs);
        Assert.NotEqual(0, new FileInfo(ScenarioRunner.InputOf(folder)).Length);
        Assert.All(scenario.Covers, id => Assert.Contains(id, Checks, StringComparer.Ordinal));
        Assert.All(
            scenario.Runs.SelectMany(run => run.Findings.Concat(run.CannotTell)),
            entry => Assert.Contains(entry.GetProperty("check").GetString()!, scenario.Covers, StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void Each_scenario_counts_something_that_was_judged(string name)
    {
        var scenario = ExpectedScenario.Read(Path.Combine(ScenarioFolders.Root, name));

        // Cuff readings, outlets and what falls due are judged and in none of the counts: there a finding must show it.
        Assert.All(scenario.Runs, run => Assert.True(run.Judged.EnumerateObject().Sum(count => count.Value.GetInt32()) > 0 || run.Findings.Length > 0, run.ToString()));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void Each_scenario_names_problem_codes_that_exist(string name)
    {
        var known = typeof(Codes).GetFields(BindingFlags.Public | BindingFlags.Static)
            .Select(field => field.GetValue(null)).OfType<DiagnosticCode>().Select(code => code.Id).ToList();
        var scenario = ExpectedScenario.Read(Path.Combine(ScenarioFolders.Root, name));

        Assert.All(scenario.Runs.SelectMany(run => run.Problems), problem => Assert.Contains(problem.GetProperty("code").GetString()!, known, StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void Each_expectation_names_resources_of_its_input(string name)
    {
        var folder = Path.Combine(ScenarioFolders.Root, name);
        var input = File.ReadAllText(ScenarioRunner.InputOf(folder));
        var named = ExpectedScenario.Read(folder).Runs
            .SelectMany(run => run.Findings.Concat(run.CannotTell).Concat(run.Problems))
            .SelectMany(entry => entry.EnumerateObject())
            .SelectMany(member => member.Name switch
            {
                "patient" or "where" when member.Value.ValueKind == System.Text.Json.JsonValueKind.Null => [],
                "patient" or "where" => [member.Value.GetString()!],
                "about" => member.Value.EnumerateArray().Select(reference => reference.GetString()!),
                _ => [],
            });

        Assert.All(named, reference => Assert.Contains($"\"{reference.Split('/')[1]}\"", input, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_check_is_covered_in_both_rule_sets()
    {
        var found = ScenarioFolders.All.Select(ExpectedScenario.Read).SelectMany(scenario => scenario.Runs)
            .SelectMany(run => run.Findings.Select(finding => (run.Rules, Check: finding.GetProperty("check").GetString()!)))
            .ToHashSet();

        Assert.All(Live, check => Assert.All(["strict-ranges", "guideline-2022"], rules => Assert.Contains((rules, check), found)));
    }

    [Fact]
    public void Numbers_run_from_one_without_a_gap() =>
        Assert.Equal(
            Enumerable.Range(1, ScenarioFolders.All.Count),
            ScenarioFolders.All.Select(folder => int.Parse(Path.GetFileName(folder)[..2], CultureInfo.InvariantCulture)));

    [Fact]
    public void The_overview_has_a_row_for_each_scenario_with_its_why()
    {
        var overview = File.ReadAllText(Path.Combine(ScenarioFolders.Root, "README.md"));

        Assert.All(ScenarioFolders.All, folder =>
        {
            Assert.Contains($"[{Path.GetFileName(folder)}]({Path.GetFileName(folder)}/)", overview, StringComparison.Ordinal);
            Assert.Contains(ExpectedScenario.Read(folder).Why, overview, StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData("""{"why":"w","covers":[]}""")]
    [InlineData("""{"why":"w","covers":[],"runs":[],"note":""}""")]
    [InlineData("""{"why":null,"covers":[],"runs":[]}""")]
    [InlineData("""{"why":"w","covers":"c","runs":[]}""")]
    [InlineData("""{"why":"w","covers":[],"runs":[{"rules":"strict-ranges"}]}""")]
    [InlineData("""{"why":"w","covers":[],"runs":[{"rules":"r","asOf":null,"unknownAge":null,"exit":0,"judged":{},"findings":[{"chek":"c"}],"cannotTell":[],"problems":[]}]}""")]
    public void A_misspelt_or_missing_member_is_refused(string json) => Assert.Throws<FormatException>(() => ExpectedScenario.Parse(json));
}
