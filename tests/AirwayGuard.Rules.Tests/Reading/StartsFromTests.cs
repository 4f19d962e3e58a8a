using System.Text;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;

namespace AirwayGuard.Rules.Tests.Reading;

/// <summary>A site's rule set that starts from another and states only what differs.</summary>
public sealed class StartsFromTests : IDisposable
{
    private const string Site =
        """
        schema: 1
        name: willowmere
        version: 1.0.0
        title: Willowmere
        from: strict-ranges
        sources:
          willowmere-2026: "Willowmere suction policy, invented, 2026"
        rules:
          - id: vacuum-above-ceiling
            above:
              adult: { limit: "120 mm[Hg]", source: willowmere-2026, status: cited }
            tighten: none

        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("airwayguard-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Write(string name, string text)
    {
        var path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    private RuleSetReading Read(string text) => RuleSetLibrary.ReadFile(Write("site.yaml", text));

    private static RuleSet Clean(RuleSetReading reading)
    {
        Assert.Empty(reading.Faults);
        return reading.RuleSet!;
    }

    private static Limit LimitOf(RuleSet set, string id, AgeBand band) => set.Find(id)!.Criteria[0].Limits.For(band)!;

    private static void HasFault(RuleSetReading reading, DiagnosticCode code, string line)
    {
        var fault = Assert.Single(reading.Faults);
        Assert.Equal((code, line), (fault.Code, fault.What));
        Assert.Null(reading.RuleSet);
        Assert.True(fault.Line > 0, "a place is given");
    }

    [Fact]
    public void A_band_that_is_stated_takes_the_bases_place_and_the_others_stay()
    {
        var set = Clean(Read(Site));
        var strict = ShippedRuleSets.Load("strict-ranges").RuleSet!;

        Assert.Equal((120m, "willowmere-2026"), (LimitOf(set, "vacuum-above-ceiling", AgeBand.Adult).Low, LimitOf(set, "vacuum-above-ceiling", AgeBand.Adult).Source));
        foreach (var band in (AgeBand[])[AgeBand.Neonate, AgeBand.Infant, AgeBand.Child])
        {
            Assert.Equal(LimitOf(strict, "vacuum-above-ceiling", band), LimitOf(set, "vacuum-above-ceiling", band));
        }

        Assert.Empty(set.Find("vacuum-above-ceiling")!.Tighten);
        Assert.Equal(strict.Rules.Select(rule => rule.Id), set.Rules.Select(rule => rule.Id), StringComparer.Ordinal);
        Assert.Equal(strict.Find("vacuum-above-ceiling")!.Say, set.Find("vacuum-above-ceiling")!.Say);
    }

    [Fact]
    public void A_limit_for_all_ages_is_spread_over_the_bands_where_one_of_them_differs()
    {
        var set = Clean(Read(Site.Replace("  - id: vacuum-above-ceiling", "  - id: set-and-charted-vacuum-differ", StringComparison.Ordinal).Replace("    tighten: none\n", "", StringComparison.Ordinal)));

        Assert.Equal(120m, LimitOf(set, "set-and-charted-vacuum-differ", AgeBand.Adult).Low);
        Assert.Equal(20m, LimitOf(set, "set-and-charted-vacuum-differ", AgeBand.Neonate).Low);
    }

    [Fact]
    public void Another_comparison_takes_the_place_of_the_bases_whole_one_and_so_needs_every_band()
    {
        var reading = Read(Site.Replace("    above:\n", "    atOrAbove:\n", StringComparison.Ordinal));

        Assert.Equal(["AG3208", "AG3208", "AG3208"], reading.Faults.Select(fault => fault.Code.Id), StringComparer.Ordinal);
        Assert.Null(reading.RuleSet);
    }

    [Fact]
    public void A_rule_of_a_sites_own_is_added_and_one_under_without_is_left_out()
    {
        var set = Clean(Read(Site.Replace("rules:\n", "without: [wall-supply-unsurveyed, suctioned-too-often]\nrules:\n", StringComparison.Ordinal) +
            """
              - id: willowmere-cuff
                judges: [cuff]
                measure: cuff-pressure
                above:
                  all: { limit: "25 cm[H2O]", source: willowmere-2026, status: cited }
                severity: low
                say: "Cuff pressure {value} is above {limit}."
                do: "The policy asks for at most {limit}."
                clears: a later reading

            """));

        Assert.NotNull(set.Find("willowmere-cuff"));
        Assert.Null(set.Find("wall-supply-unsurveyed"));
        Assert.Equal(ShippedRuleSets.Load("strict-ranges").RuleSet!.Rules.Length - 1, set.Rules.Length);
    }

    [Fact]
    public void What_is_kept_for_good_is_the_whole_document_and_reads_as_the_same_set()
    {
        var reading = Read(Site);
        var set = Clean(reading);

        var again = RuleSetReader.Read(reading.Document, "kept");

        Assert.Equal(set.Sha256, Clean(again).Sha256);
        Assert.Equal(reading.RuleTexts, again.RuleTexts);
        Assert.Empty(again.StartsFrom);
        Assert.NotEqual(ShippedRuleSets.Load("strict-ranges").RuleSet!.Sha256, set.Sha256, StringComparer.Ordinal);
    }

    [Fact]
    public void A_set_that_changes_nothing_has_every_rule_of_its_base_word_for_word()
    {
        var reading = Read(Site[..Site.IndexOf("rules:", StringComparison.Ordinal)]);

        Assert.Equal(ShippedRuleSets.Load("strict-ranges").RuleTexts, reading.RuleTexts);
        Clean(reading);
    }

    [Fact]
    public void A_file_in_the_same_folder_may_be_the_base_and_may_start_from_another_itself()
    {
        Write("region.yaml", Site.Replace("name: willowmere", "name: region", StringComparison.Ordinal));
        var set = Clean(Read(
            """
            schema: 1
            name: ward-7
            version: 1.0.0
            title: Ward 7
            from: region.yaml
            rules:
              - id: vacuum-above-ceiling
                above:
                  child: { limit: "110 mm[Hg]", source: willowmere-2026, status: cited }

            """));

        Assert.Equal(120m, LimitOf(set, "vacuum-above-ceiling", AgeBand.Adult).Low);
        Assert.Equal(110m, LimitOf(set, "vacuum-above-ceiling", AgeBand.Child).Low);
        Assert.Equal(80m, LimitOf(set, "vacuum-above-ceiling", AgeBand.Neonate).Low);
    }

    [Fact]
    public void Rules_show_says_which_document_states_each_limit()
    {
        using var output = new StringWriter { NewLine = "\n" };
        Assert.Equal(0, RulesPage.Write(Read(Site), "vacuum-above-ceiling", output, output));

        var lines = output.ToString().Split('\n').Select(line => line.Trim()).ToList();
        Assert.Equal("vacuum-above-ceiling (willowmere 1.0.0, from strict-ranges 1.0.0)", lines[0]);
        Assert.Equal(3, lines.Count(line => line == "as strict-ranges 1.0.0 states it"));
        Assert.Equal("as willowmere 1.0.0 states it", lines[lines.FindIndex(line => line.StartsWith("Breach       adult: above 120", StringComparison.Ordinal)) + 3]);
    }

    [Theory]
    [InlineData("../strict.yaml", "AG3108", "from is '../strict.yaml', which is a path.")]
    [InlineData("/etc/hosts", "AG3108", "from is '/etc/hosts', which is a path.")]
    [InlineData("..", "AG3108", "from is '..', which is a path.")]
    [InlineData("strict-range", "AG3107", "from is 'strict-range'; there is no such rule set, and no such file beside this one. Did you mean strict-ranges?")]
    [InlineData("site.yaml", "AG3109", "'site.yaml' starts from this document itself.")]
    public void A_base_that_is_elsewhere_missing_or_the_document_itself_is_refused(string from, string code, string what)
    {
        var reading = Read(Site.Replace("from: strict-ranges", $"from: \"{from}\"", StringComparison.Ordinal));

        var fault = Assert.Single(reading.Faults);
        Assert.Equal((code, what, 5, 7), (fault.Code.Id, fault.What, fault.Line, fault.Column));
    }

    [Fact]
    public void A_link_that_leads_out_of_the_folder_is_not_followed()
    {
        var elsewhere = Path.Combine(Directory.CreateDirectory(Path.Combine(_folder, "inner")).FullName, "other.yaml");
        File.WriteAllText(elsewhere, Site);
        File.CreateSymbolicLink(Path.Combine(_folder, "linked.yaml"), elsewhere);

        HasFault(Read(Site.Replace("from: strict-ranges", "from: linked.yaml", StringComparison.Ordinal)), Codes.BaseElsewhere, "'linked.yaml' is a link or no regular file.");
    }

    [Fact]
    public void Two_files_that_start_from_each_other_are_refused()
    {
        Write("other.yaml", Site.Replace("from: strict-ranges", "from: site.yaml", StringComparison.Ordinal));

        HasFault(Read(Site.Replace("from: strict-ranges", "from: other.yaml", StringComparison.Ordinal)), Codes.BaseHasFaults, "'other.yaml' has 1 fault, first AG3109 at line 5.");
    }

    [Fact]
    public void Faults_of_the_base_are_told_where_it_is_named()
    {
        Write("other.yaml", Site.Replace("120 mm[Hg]", "120 cm", StringComparison.Ordinal));

        HasFault(Read(Site.Replace("from: strict-ranges", "from: other.yaml", StringComparison.Ordinal)), Codes.BaseHasFaults, "'other.yaml' has 1 fault, first AG3206 at line 11.");
    }

    [Fact]
    public void What_no_longer_fits_with_the_base_is_told_at_the_sites_rule()
    {
        // The base tightens to 120 mmHg where intracranial pressure is monitored; at 110 for every age that tightens nothing.
        var reading = Read(Site.Replace("    tighten: none\n", "", StringComparison.Ordinal).Replace(
            "      adult: { limit: \"120 mm[Hg]\", source: willowmere-2026, status: cited }", "      all: { limit: \"110 mm[Hg]\", source: willowmere-2026, status: cited }", StringComparison.Ordinal));

        var fault = Assert.Single(reading.Faults);
        Assert.Equal((Codes.TightenChangesNothing, 9), (fault.Code, fault.Line));
    }

    [Fact]
    public void A_source_of_the_base_keeps_its_publication()
    {
        HasFault(
            Read(Site.Replace("  willowmere-2026: \"", "  nsw-aci-2014: \"Another text\"\n  willowmere-2026: \"", StringComparison.Ordinal)),
            Codes.BaseSourceChanged, "The base has another publication as 'nsw-aci-2014'.");
    }

    [Fact]
    public void Without_names_only_checks_of_the_base() =>
        HasFault(
            Read(Site.Replace("rules:\n", "without: [pass-to-long]\nrules:\n", StringComparison.Ordinal)),
            Codes.RuleUnknown, "without names 'pass-to-long', which the base does not have. Did you mean pass-too-long?");

    [Fact]
    public void A_limit_is_stated_whole_so_that_a_number_never_rests_on_a_source_that_says_another()
    {
        var reading = Read(Site.Replace("{ limit: \"120 mm[Hg]\", source: willowmere-2026, status: cited }", "{ limit: \"120 mm[Hg]\" }", StringComparison.Ordinal));

        Assert.Equal(["AG3211", "AG3212"], reading.Faults.Select(fault => fault.Code.Id), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("pass-to-long", "The base has no check 'pass-to-long'. Did you mean pass-too-long?")]
    [InlineData("wall-supply-unsurveyed", "'wall-supply-unsurveyed' is left out by without.")]
    public void A_slip_in_the_id_of_a_rule_that_differs_is_told_once(string id, string what) => HasFault(
        Read(Site.Replace("rules:\n", $"without: [wall-supply-unsurveyed]\nrules:\n  - {{ id: {id}, severity: low }}\n", StringComparison.Ordinal)), Codes.RuleNotOfBase, what);

    [Fact]
    public void Checks_that_withhold_each_other_are_refused_also_where_the_base_holds_one_half() => Assert.All(
        Read(Site.Replace("rules:\n", "rules:\n  - { id: regulator-on-full-line, withheldBy: vacuum-above-ceiling }\n", StringComparison.Ordinal)).Faults,
        fault => Assert.Equal(Codes.WithheldInCircle, fault.Code));

    [Fact]
    public void Steps_of_the_base_are_not_blamed_where_a_site_leaves_a_check_without_limits() => HasFault(
        Read(Site.Replace("rules:\n", "rules:\n  - { id: pass-too-long, above: { all: not-judged }, tighten: none }\n", StringComparison.Ordinal)), Codes.NoBandJudged, "No band has a limit.");

    [Fact]
    public void A_rule_given_twice_is_a_fault()
    {
        var again = Site[Site.IndexOf("  - id:", StringComparison.Ordinal)..];

        Assert.Contains(Codes.RuleIdDoubled, Read(Site + again).Faults.Select(fault => fault.Code));
    }

    [Theory]
    [InlineData("[]", "from is a list.")]
    [InlineData("\"\"", "from is empty.")]
    [InlineData("{ a: b }", "from is keys with values.")]
    public void From_is_a_text(string from, string what) =>
        HasFault(Read(Site.Replace("from: strict-ranges", $"from: {from}", StringComparison.Ordinal)), Codes.RuleSetShapeWrong, what);

    [Fact]
    public void The_name_of_a_shipped_set_is_not_given_to_another()
    {
        var fault = Assert.Single(Read(Site.Replace("name: willowmere", "name: strict-ranges", StringComparison.Ordinal)).Faults);
        Assert.Equal(Codes.NameOfShipped, fault.Code);

        var copy = Write("copy.yaml", Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span));
        Clean(RuleSetLibrary.ReadFile(copy));
    }

    [Fact]
    public void Bytes_that_come_from_no_file_find_shipped_sets_only()
    {
        var reading = RuleSetReader.Read(Encoding.UTF8.GetBytes(Site.Replace("from: strict-ranges", "from: other.yaml", StringComparison.Ordinal)), "pasted");

        HasFault(reading, Codes.BaseMissing, "from is 'other.yaml'; there is no such rule set.");
    }
}
