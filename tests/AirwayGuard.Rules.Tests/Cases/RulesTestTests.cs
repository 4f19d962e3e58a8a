namespace AirwayGuard.Rules.Tests.Cases;

/// <summary>What <c>rules test</c> tells, and how it exits.</summary>
public sealed class RulesTestTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("rules-test-");
    private readonly StringWriter _output = new() { NewLine = "\n" };
    private readonly StringWriter _errors = new() { NewLine = "\n" };

    public void Dispose()
    {
        _output.Dispose();
        _errors.Dispose();
        _folder.Delete(recursive: true);
    }

    private string Write(string name, string document)
    {
        var path = Path.Combine(_folder.FullName, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, document);
        return path;
    }

    private int Run(string ruleSet, bool prove, params string[] cases) => RulesTest.Run(RuleSetLibrary.Resolve(ruleSet), cases, prove, _output, _errors);

    [Fact]
    public void Cases_that_hold_are_counted_and_the_exit_is_nothing()
    {
        Assert.Equal(RulesTest.Holds, Run("strict-ranges", false, Write("good.yaml", CaseDocuments.Valid)));

        Assert.Equal("strict-ranges 1.0.0: 2 of 2 cases hold (2 of its own)\n", _output.ToString());
        Assert.Empty(_errors.ToString());
    }

    [Fact]
    public void A_case_that_fails_is_told_at_its_line_with_what_was_expected_and_what_came()
    {
        var file = Write("bad.yaml", CaseDocuments.With("severity: high, value: 151 mmHg", "severity: low, value: 151 mmHg").Replace("missing: birth date", "missing: exact value", StringComparison.Ordinal));

        Assert.Equal(RulesTest.Fails, Run("strict-ranges", true, file));

        Assert.Equal(
            $"""
            {file}:3: an adult's ceiling is 150 mmHg
                expected   vacuum-above-ceiling at 10:00, latest 10:00, low, 151 mm[Hg], count 1, adult, open, with a Flag
                came       vacuum-above-ceiling at 10:00, high, 151 mm[Hg], breach: above 150 mm[Hg], count 1, adult, open, with a Flag

            {file}:17: without an age nobody can tell
                expected   vacuum-above-ceiling cannot be told at 10:00, for lack of exact value, count 1
                came       vacuum-above-ceiling cannot be told at 10:00, for lack of birth date, count 1

            strict-ranges 1.0.0: 0 of 2 cases hold (2 of its own)

            """.ReplaceLineEndings("\n"),
            _output.ToString());
    }

    [Fact]
    public void What_comes_beside_what_was_expected_fails_the_case()
    {
        var file = Write("more.yaml", CaseDocuments.With("- { at: 10:00, vacuum-pressure: 151 mmHg }\n    cannot-tell:", "- { at: 10:00, vacuum-pressure: 151 mmHg }\n      - { at: 11:00, intracranial-pressure-monitored: yes }\n      - { at: 12:00, vacuum-pressure: 130 mmHg }\n    cannot-tell:"));

        Assert.Equal(RulesTest.Fails, Run("strict-ranges", false, file));

        Assert.Contains("    unexpected vacuum-above-ceiling at 12:00, high, 130 mm[Hg]", _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_Flag_that_is_not_raised_fails_the_case_that_asks_for_one()
    {
        var file = Write("flag.yaml", CaseDocuments.Charting("at: 10:00, suction-pass: yes, pass-duration: 30 s").Replace("about: vacuum-above-ceiling", "about: pass-too-long\n    born: 66 years", StringComparison.Ordinal) + "    finds:\n      - { check: pass-too-long, flag: yes }\n");

        Assert.Equal(RulesTest.Fails, Run("strict-ranges", false, file));

        Assert.Contains("    expected   pass-too-long, with a Flag\n    came       pass-too-long at 10:00, high, 30 s, breach: above 15 s, count 1, adult, open, without a Flag\n", _output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Changes_that_no_case_notices_are_named_and_fail_the_proof()
    {
        Assert.Equal(RulesTest.Fails, Run("strict-ranges", true, Write("few.yaml", CaseDocuments.Valid)));

        var output = _output.ToString();
        Assert.Contains("    no case notices  vacuum-above-ceiling: neonate above 79 mm[Hg] instead of above 80 mm[Hg]\n", output, StringComparison.Ordinal);
        Assert.DoesNotContain("no case notices  vacuum-above-ceiling: adult above 151 mm[Hg]", output, StringComparison.Ordinal);
        Assert.Matches(@"strict-ranges 1\.0\.0: \d+ of \d+ small changes to its rules are noticed by a case\n$", output);
    }

    [Fact]
    public void Without_any_case_nothing_holds()
    {
        var rules = Write("ward.yaml", Documents.Valid);

        Assert.Equal(RulesTest.NotOpened, Run(rules, false));

        Assert.StartsWith($"AG3508  {rules}: no cases were found.", _errors.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Cases_beside_a_file_are_found_in_a_file_and_a_folder_of_its_name()
    {
        var rules = Write("ward.yaml", Documents.Valid);
        var one = CaseDocuments.Charting("at: 10:00, vacuum-pressure: 60 mmHg").Replace("about:", "born: 66 years\n    about:", StringComparison.Ordinal);
        Write("ward.cases.yaml", one);
        Write("ward.cases/more.yaml", one);

        Assert.Equal(RulesTest.Holds, Run(rules, false));

        Assert.Equal("ward-7 2026.1: 2 of 2 cases hold (2 of its own)\n", _output.ToString());
    }

    [Theory]
    [InlineData("about: vacuum-above-ceiling", "about: vacuum-over-ceiling", "AG3507")]
    [InlineData("born: 66 years", "born: old", "AG3503")]
    public void A_fault_in_the_cases_is_told_and_nothing_is_judged(string passage, string changed, string code)
    {
        Assert.Equal(RulesTest.NotOpened, Run("strict-ranges", false, Write("faulty.yaml", CaseDocuments.With(passage, changed))));

        Assert.Contains(code, _errors.ToString(), StringComparison.Ordinal);
        Assert.Empty(_output.ToString());
    }

    [Fact]
    public void A_file_of_cases_that_is_not_there_is_told()
    {
        Assert.Equal(RulesTest.NotOpened, Run("strict-ranges", false, Path.Combine(_folder.FullName, "none.yaml")));

        Assert.Contains("AG3001", _errors.ToString(), StringComparison.Ordinal);
    }
}
