namespace AirwayGuard.Rules.Tests.Showing;

public sealed class RulesListTests : IDisposable
{
    private readonly StringWriter _output = new() { NewLine = "\n" };
    private readonly StringWriter _errors = new() { NewLine = "\n" };

    public void Dispose()
    {
        _output.Dispose();
        _errors.Dispose();
    }

    [Fact]
    public void Every_check_has_a_line_with_severity_standing_mode_and_doubtful_sources()
    {
        Assert.Equal(0, RulesList.Write(ShippedRuleSets.Load("strict-ranges"), _output, _errors));

        var lines = _output.ToString().Split('\n');
        Assert.Equal("strict-ranges 1.0.0: Strict ranges", lines[0]);
        var told = lines.Skip(4).Select(line => string.Join(' ', line.Split(' ', StringSplitOptions.RemoveEmptyEntries))).ToList();
        string[] expected =
        [
            "vacuum-above-ceiling setting high regulator live from memory",
            "regulator-on-full-line setting high regulator live common practice",
            "vacuum-unit-doubtful setting, order moderate - live common practice",
            "catheter-too-wide pass, order moderate to high airway live disputed",
            "pass-too-long pass moderate to high - live",
            "preoxygenation-missing pass moderate - live",
            "blood-stained-secretions-trend session moderate to high episode live common practice",
            "suction-ordered-by-clock order moderate order live from memory",
        ];
        Assert.All(expected, line => Assert.Contains(line, told, StringComparer.Ordinal));
        Assert.All(ShippedRuleSets.Load("strict-ranges").RuleSet!.Rules, rule => Assert.Single(told, line => line.StartsWith(rule.Id + " ", StringComparison.Ordinal)));
        Assert.Contains("Shipped: strict-ranges, guideline-2022 (default strict-ranges).", lines, StringComparer.Ordinal);
        Assert.Contains("Limits need local approval before use; local policy and licensed practice decide.", lines, StringComparer.Ordinal);
        Assert.Empty(_errors.ToString());
    }

    [Fact]
    public void A_faulty_set_is_not_listed_and_its_faults_go_to_the_errors()
    {
        Assert.Equal(1, RulesList.Write(Documents.Read(Documents.With("schema: 1", "schema: 2")), _output, _errors));

        Assert.Empty(_output.ToString());
        Assert.Contains("AG3105", _errors.ToString(), StringComparison.Ordinal);
    }
}
