using AirwayGuard.Rules.Reading;

namespace AirwayGuard.Rules.Tests.Showing;

public sealed class RulesLintTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("rules-lint-");
    private readonly StringWriter _output = new() { NewLine = "\n" };

    public void Dispose()
    {
        _output.Dispose();
        _folder.Delete(recursive: true);
    }

    private int Lint(string document)
    {
        var path = Path.Combine(_folder.FullName, "ward.yaml");
        File.WriteAllText(path, document);
        return RulesLint.Run(path, _output);
    }

    private static string WithModes => Documents.Valid.Replace("    severity: high\n    say", "    severity: high\n    mode: silent\n    say", StringComparison.Ordinal);

    [Fact]
    public void A_clean_document_is_told_in_one_line_and_exits_with_nothing()
    {
        Assert.Equal(0, Lint(WithModes));

        Assert.Matches(@"^\S+ward\.yaml: clean; ward-7 2026\.1, 2 checks, sha256 [0-9a-f]{64}\n$", _output.ToString());
    }

    [Fact]
    public void Each_fault_has_its_line_and_the_exit_is_one()
    {
        Assert.Equal(1, Lint(Documents.Valid
            .Replace("stands: regulator", "stands: patient", StringComparison.Ordinal)
            .Replace("waits: 3 h", "waits: 3 d", StringComparison.Ordinal)));

        var lines = _output.ToString().TrimEnd().Split('\n');
        Assert.Equal(3, lines.Length);
        Assert.EndsWith("ward.yaml:24:13: AG3306 stands is 'patient'. Allowed: regulator, episode, airway, order, outlet.", lines[0], StringComparison.Ordinal);
        Assert.EndsWith("ward.yaml:25:12: AG3308 waits is '3 d'. Write 0 to 48 h, such as 2 h.", lines[1], StringComparison.Ordinal);
        Assert.EndsWith("ward.yaml: 2 faults", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public void A_ceiling_deeper_than_one_atmosphere_is_told_with_what_is_allowed()
    {
        Assert.Equal(1, Lint(Documents.Valid.Replace("adult: { limit: \"150 mm[Hg]\"", "adult: { limit: \"150 kPa\"", StringComparison.Ordinal)));

        Assert.Contains(
            "ward.yaml:16:23: AG3215 The limit is '150 kPa', 1125.1 mm[Hg]; no vacuum is deeper than one atmosphere, 760 mm[Hg]. Allowed: 0 to 760 mm[Hg], or as much in another unit.",
            _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_vacuum_of_just_one_atmosphere_is_a_limit() =>
        Assert.Equal(0, Lint(Documents.Valid.Replace("\"200 mm[Hg]\"", "\"760 mm[Hg]\"", StringComparison.Ordinal)));

    [Fact]
    public void An_id_near_to_a_shipped_one_is_noted_and_the_document_is_used()
    {
        Assert.Equal(0, Lint(WithModes.Replace("- id: vacuum-above-ceiling", "- id: vacuum-above-cieling", StringComparison.Ordinal)));

        var lines = _output.ToString().TrimEnd().Split('\n');
        Assert.Equal(2, lines.Length);
        Assert.Contains(
            "ward.yaml:9:9: AG3311 No check of a shipped set is called 'vacuum-above-cieling'. Did you mean vacuum-above-ceiling?", lines[0], StringComparison.Ordinal);
        Assert.Contains("clean", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_check_without_a_mode_is_noted_as_silent()
    {
        Assert.Equal(0, Lint(Documents.Valid));

        Assert.Contains("AG3313 'mode-check' says no mode. Write mode: live for it to speak", _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_id_of_its_own_is_not_asked_about()
    {
        Assert.Equal(0, Lint(Documents.Valid.Replace("mode-check", "ward-mode-of-regulator", StringComparison.Ordinal)));

        Assert.DoesNotContain("AG3311", _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_check_of_a_shipped_set_is_known_by_its_id() => Assert.All(
        ShippedRuleSets.Names, name => Assert.All(ShippedRuleSets.Load(name).RuleSet!.Rules, rule => Assert.Contains(rule.Id, ShippedIds.All)));

    [Fact]
    public void A_file_that_is_not_there_exits_with_two()
    {
        Assert.Equal(2, RulesLint.Run(Path.Combine(_folder.FullName, "none.yaml"), _output));

        Assert.Contains("none.yaml: AG3001", _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_shipped_set_can_be_linted_by_its_name()
    {
        Assert.Equal(0, RulesLint.Run("strict-ranges", _output));

        var checks = ShippedRuleSets.Load("strict-ranges").RuleSet!.Rules.Length;
        Assert.StartsWith($"strict-ranges: clean; strict-ranges 1.0.0, {checks} checks", _output.ToString(), StringComparison.Ordinal);
    }
}
