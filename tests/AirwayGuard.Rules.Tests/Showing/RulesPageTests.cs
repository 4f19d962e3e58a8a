namespace AirwayGuard.Rules.Tests.Showing;

public sealed class RulesPageTests : IDisposable
{
    private readonly StringWriter _output = new() { NewLine = "\n" };
    private readonly StringWriter _errors = new() { NewLine = "\n" };

    public void Dispose()
    {
        _output.Dispose();
        _errors.Dispose();
    }

    private string Show(RuleSetReading reading, string id)
    {
        Assert.Equal(0, RulesPage.Write(reading, id, _output, _errors));
        Assert.Empty(_errors.ToString());
        return _output.ToString();
    }

    private static void HasLine(string text, string line) => Assert.Contains(
        text.Split('\n'), shown => string.Join(' ', shown.Split(' ', StringSplitOptions.RemoveEmptyEntries)) == line);

    [Fact]
    public void A_ceiling_is_shown_per_band_with_its_comparison_in_words_its_source_and_status()
    {
        var text = Show(ShippedRuleSets.Load("strict-ranges"), "vacuum-above-ceiling");

        HasLine(text, "vacuum-above-ceiling (strict-ranges 1.0.0)");
        HasLine(text, "Measures vacuum-pressure: vacuum depth below ambient, read or set");
        HasLine(text, "Breach neonate: above 80 mm[Hg] (80 mm[Hg] itself is within)");
        HasLine(text, "Ireton J. Tracheostomy suction: a protocol for practice. Paediatr Nurs 2007;19(10):14-18 [ireton-2007]");
        HasLine(text, "Breach child: above 120 mm[Hg] (120 mm[Hg] itself is within)");
        HasLine(text, "FROM MEMORY: the source was not opened");
        HasLine(text, "Breach adult: above 150 mm[Hg] (150 mm[Hg] itself is within)");
        HasLine(text, "cited: read in this source");
        HasLine(text, "Stricter where intracranial-pressure-monitored is yes, this holds too and the stricter counts");
        HasLine(text, "all ages: above 120 mm[Hg] (120 mm[Hg] itself is within)");
        HasLine(text, "Severity high");
        HasLine(text, "Withheld by regulator-on-full-line, where that check says it already");
        HasLine(text, "Flag on the regulator the row names, else the patient's episode");
        HasLine(text, "Waits 2 h for what is missing");
        HasLine(text, "Mode live");
        HasLine(text, "Limits need local approval before use; local policy and licensed practice decide.");
    }

    [Fact]
    public void A_check_is_shown_with_what_clinicians_call_it() =>
        HasLine(Show(ShippedRuleSets.Load("strict-ranges"), "catheter-too-wide"), "Called catheter-to-tube ratio");

    [Fact]
    public void Guards_of_which_all_must_hold_are_not_shown_as_if_one_did()
    {
        var unless = Documents.With("    stands: regulator", "    stands: regulator\n    unless: { regulator-mode: intermittent, intracranial-pressure-monitored: no }");

        HasLine(Show(Documents.Read(unless), "vacuum-above-ceiling"), "Not judged where regulator-mode is intermittent and intracranial-pressure-monitored is no");
    }

    [Fact]
    public void An_inclusive_limit_says_that_the_number_itself_breaches()
    {
        var text = Show(ShippedRuleSets.Load("guideline-2022"), "vacuum-above-ceiling");

        HasLine(text, "Breach neonate, infant, child: 120 mm[Hg] or above (120 mm[Hg] itself breaches)");
        HasLine(text, "Breach adult: 200 mm[Hg] or above (200 mm[Hg] itself breaches)");
    }

    [Fact]
    public void A_disputed_limit_and_severity_steps_are_shown_plainly()
    {
        var text = Show(ShippedRuleSets.Load("strict-ranges"), "catheter-too-wide");

        HasLine(text, "Breach infant: above 0.7 (0.7 itself is within)");
        HasLine(text, "DISPUTED: another publication of the same source prints another figure");
        HasLine(text, "Severity moderate; high above 0.7");
        HasLine(text, "of the steps: COMMON PRACTICE: no source found");
    }

    [Fact]
    public void Common_practice_and_several_criteria_are_shown()
    {
        var text = Show(ShippedRuleSets.Load("strict-ranges"), "blood-stained-secretions-trend");

        HasLine(text, "Breach all ages: 2 or above (2 itself breaches)");
        HasLine(text, "Measures frank-blood: sessions with frank blood among the last three with a charted appearance");
        HasLine(text, "COMMON PRACTICE: no source found");
        HasLine(text, "Ends with three clear sessions");
    }

    [Fact]
    public void Bands_without_a_limit_exceptions_and_the_need_of_an_age_are_shown()
    {
        var text = Show(ShippedRuleSets.Load("strict-ranges"), "preoxygenation-missing");

        HasLine(text, "Breach neonate, infant: not judged");
        HasLine(text, "Breach child, adult: is not charted");
        HasLine(text, "Not judged where hyperoxygenation-contraindicated is yes");
        HasLine(text, "Age needed: without one the answer is cannot-tell");
        HasLine(text, "Flag on nothing: raises no Flag");
    }

    [Fact]
    public void Allowances_holds_and_a_silent_mode_are_shown()
    {
        var text = Show(Documents.Read(Documents.Valid), "vacuum-above-ceiling");

        HasLine(text, "Allowed with thick-secretions charted as the reason, up to");
        HasLine(text, "adult: above 200 mm[Hg] (200 mm[Hg] itself is within)");
        HasLine(text, "Breach infant: above 13.5 kPa (13.5 kPa itself is within)");
        HasLine(text, "Holds a setting streamed by a device must have stood 3 min");
        HasLine(text, "Mode silent: judged and recorded, nothing leaves the service");
    }

    [Fact]
    public void An_unknown_check_is_refused_with_the_one_that_was_meant()
    {
        Assert.Equal(2, RulesPage.Write(ShippedRuleSets.Load("strict-ranges"), "pass-to-long", _output, _errors));

        Assert.Empty(_output.ToString());
        Assert.StartsWith("AG3013  strict-ranges: there is no check 'pass-to-long'. Did you mean pass-too-long? Give an id", _errors.ToString(), StringComparison.Ordinal);
    }
}
