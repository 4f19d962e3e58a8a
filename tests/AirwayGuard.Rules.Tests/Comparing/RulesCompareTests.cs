using System.Text.Json;

namespace AirwayGuard.Rules.Tests.Comparing;

public sealed class RulesCompareTests
{
    private const string Adult = """adult: { limit: "150 mm[Hg]", source: memory, status: from-memory }""";
    private const string Neonate = """neonate: { limit: "80 mm[Hg]", source: local, status: cited }""";
    private const string Tighten =
        """
            tighten:
              - when: { intracranial-pressure-monitored: yes }
                above: { limit: "120 mm[Hg]", source: local, status: cited }

        """;

    private const string Allow = """      - { reason: thick-secretions, bands: [adult], limit: "200 mm[Hg]", source: local, status: cited }""";
    private const string FullLine = "all: { limit: full-line, source: local, status: common-practice }";
    private const string Measured = "    measure: regulator-mode\n    is:\n      " + FullLine;

    /// <summary>A passage of the valid document, what it becomes, and every sentence that tells it, joined by line breaks.</summary>
    public static TheoryData<string, string, string> Changes => new()
    {
        // Limits of the ages.
        { Adult, Adult.Replace("150", "140"), "Adult vacuum ceiling: 150 mmHg or less becomes 140 mmHg or less (stricter)\n" + Stays },
        { Adult, Adult.Replace("150 mm[Hg]", "20 kPa"), "Adult vacuum ceiling: 150 mmHg or less becomes 20 kPa or less (neither)\n" + Stays },
        { Neonate, "neonate: not-judged", "Neonate vacuum ceiling: 80 mmHg or less becomes not judged (looser)\n" +
            "Neonate vacuum ceiling where intracranial pressure is monitored: 120 mmHg or less becomes no limit of its own (looser)" },
        { "child: not-judged", """child: { limit: "110 mm[Hg]", source: local, status: disputed }""", "Child vacuum ceiling: not judged becomes 110 mmHg or less (stricter)\n" +
            "Child vacuum ceiling where intracranial pressure is monitored: no limit of its own becomes 120 mmHg or less (stricter)" },
        { Neonate, Neonate.Replace("cited", "disputed"), "Neonate vacuum ceiling: 80 mmHg or less stays, on the same source, cited becomes disputed (neither)\n" + Stays },
        { Neonate, Neonate.Replace("local", "memory"), "Neonate vacuum ceiling: 80 mmHg or less stays, on another source (neither)\n" + Stays },
        { Neonate, Neonate.Replace("local", "memory").Replace("cited", "from-memory"), "Neonate vacuum ceiling: 80 mmHg or less stays, on another source, cited becomes from memory (neither)\n" + Stays },
        { "    is:\n      " + FullLine, "    isNot:\n      all: { limit: regulated, source: local, status: common-practice }", "Mode check, all ages: other than full line becomes regulated only (neither)" },
        { FullLine, FullLine.Replace("full-line", "intermittent"), "Mode check, all ages: other than full line becomes other than intermittent (neither)" },
        { Measured, "    measure: vacuum-pressure\n    atOrBelow:\n      all: { limit: \"-\", source: local, status: cited }".Replace("-\"", "5 kPa\""), "Mode check, what is measured: regulator mode becomes vacuum pressure (vacuum depth below ambient, read or set) (neither)\nMode check, all ages: other than full line becomes above 5 kPa (neither)" },

        // Circumstances, allowances, guards.
        { Tighten, "", "Neonate, infant and adult vacuum ceiling where intracranial pressure is monitored: 120 mmHg or less becomes no limit of its own (looser)" },
        { Tighten, Tighten.Replace("120", "119"), "Neonate, infant and adult vacuum ceiling where intracranial pressure is monitored: 120 mmHg or less becomes 119 mmHg or less (stricter)" },
        { Tighten, Tighten.Replace("above", "atOrAbove"), "Neonate, infant and adult vacuum ceiling where intracranial pressure is monitored: 120 mmHg or less becomes below 120 mmHg (stricter)" },
        { Allow, Allow.Replace("thick-secretions", "emergency"), "Adult vacuum ceiling with thick secretions charted as the reason: 200 mmHg or less becomes no allowance (stricter)\n" +
            "Adult vacuum ceiling with emergency charted as the reason: no allowance becomes 200 mmHg or less (looser)" },
        { Allow, Allow.Replace("200", "250"), "Adult vacuum ceiling with thick secretions charted as the reason: 200 mmHg or less becomes 250 mmHg or less (looser)" },
        { "bands: [adult], limit: \"200 mm[Hg]\"", "bands: all", "Neonate, infant and child vacuum ceiling with thick secretions charted as the reason: no allowance becomes allowed altogether (looser)\n" +
            "Adult vacuum ceiling with thick secretions charted as the reason: 200 mmHg or less becomes allowed altogether (looser)" },
        { "    stands: regulator", "    stands: regulator\n    unless: { intracranial-pressure-monitored: no }", "Vacuum ceiling, not judged where: nowhere becomes it is charted that not: intracranial pressure is monitored (looser)" },
        { "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: { below: \"5 kPa\" } }", "Vacuum ceiling, not judged where: nowhere becomes vacuum pressure is below 5 kPa (looser)" },

        // When it judges, how gravely it speaks, and to whom.
        { "    severity: high\n    withheldBy", "    severity: moderate\n    withheldBy", "Vacuum ceiling, severity of a breach: high becomes moderate (looser)" },
        { "    severity: high\n    say", "    severity: low\n    say", "Mode check, severity of a breach: high becomes low (looser)" },
        { "mode: { default: silent }", "mode: live", "Vacuum ceiling, mode: silent (judged and recorded, nothing leaves the service) becomes live (stricter)" },
        { "    stands: regulator\n", "", "Vacuum ceiling, Flag on: the regulator becomes nothing (looser)" },
        { "    stands: regulator", "    stands: episode", "Vacuum ceiling, Flag on: the regulator becomes the episode (neither)" },
        { "waits: 3 h", "waits: 90 min", "Vacuum ceiling, wait for late charting: 3 h becomes 90 min (stricter)" },
        { "holds: 3 min", "holds: 0 min", "Vacuum ceiling, time a streamed setting must have stood: 3 min becomes none (stricter)" },
        { "    withheldBy: mode-check\n", "", "Vacuum ceiling, said already by: mode check becomes no other check (stricter)" },
        { "    stands: regulator", "    stands: regulator\n    needsAge: yes", "Vacuum ceiling, needs an age, and cannot tell without one: no becomes yes (looser)" },

        // Words.
        { "say: \"Vacuum {value}", "say: \"A vacuum of {value}", "Vacuum ceiling, what it says: worded anew (neither)" },
        { "    clears: another mode", "    sayInstead: { full-line: Anew. }\n    clears: another mode", "Mode check, what it says where it is full line: worded anew (neither)" },
        { "do: \"The policy asks for another mode.\"", "do: \"The policy asks.\"", "Mode check, what the policy asks: worded anew (neither)" },
        { "clears: a lower reading", "clears: a reading", "Vacuum ceiling, what ends it: worded anew (neither)" },
        { "  - id: mode-check\n", "  - id: mode-check\n    title: regulator  mode\n", "Regulator mode, its name: mode check becomes regulator mode (neither)" },
    };

    private const string Stays =
        "Neonate, infant and adult vacuum ceiling where intracranial pressure is monitored: 120 mmHg or less stays; the stricter of it and the limit for the age holds";

    private static readonly Dictionary<string, string> Turned = new(StringComparer.Ordinal) { ["looser"] = "stricter", ["stricter"] = "looser", ["neither"] = "neither" };

    [Theory]
    [MemberData(nameof(Changes))]
    public void Each_change_is_one_sentence_that_says_which_way_it_goes(string passage, string changed, string expected)
    {
        var lines = Compared.Lines(Documents.Valid, Documents.With(passage, changed));

        Assert.Equal(expected.Split('\n'), Compared.Sentences(lines), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Changes))]
    public void Taken_the_other_way_round_what_was_looser_is_stricter(string passage, string changed, string expected)
    {
        Assert.NotEmpty(expected);
        var (one, other) = (Documents.Read(Documents.Valid), Documents.Read(Documents.With(passage, changed)));

        var (forth, back) = (Directions(one, other), Directions(other, one));

        Assert.NotEmpty(forth);
        Assert.Equal(forth.Select(direction => Turned[direction]).Order(StringComparer.Ordinal), back.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Changes))]
    public void The_json_holds_each_sentence_of_the_text_in_its_order(string passage, string changed, string expected)
    {
        Assert.NotEmpty(expected);
        var (one, other) = (Documents.Read(Documents.Valid), Documents.Read(Documents.With(passage, changed)));
        using var json = JsonDocument.Parse(Compared.Text(one, other, asJson: true));

        var told = json.RootElement.GetProperty("checks").EnumerateArray().SelectMany(check => check.GetProperty("changes").EnumerateArray()
            .Select(change => $"{change.GetProperty("sentence").GetString()} ({change.GetProperty("direction").GetString()})")
            .Concat(check.GetProperty("stays").EnumerateArray().Select(stays => stays.GetString()!)));

        Assert.Equal(Compared.Sentences(Compared.Lines(one, other)), told, StringComparer.Ordinal);
        Assert.Contains(json.RootElement.GetProperty("sums").GetProperty("sentence").GetString(), Compared.Lines(one, other), StringComparer.Ordinal);
        Assert.False(json.RootElement.GetProperty("equal").GetBoolean());
    }

    [Theory]
    [InlineData("strict-ranges")]
    [InlineData("guideline-2022")]
    public void A_set_equals_itself(string name)
    {
        var lines = Compared.Lines(ShippedRuleSets.Load(name), ShippedRuleSets.Load(name));

        Assert.Contains("Equal: every check stands in both, with the same limits, sources and words.", lines, StringComparer.Ordinal);
        Assert.Contains("0 limits looser, 0 stricter, 48 checks unchanged", lines, StringComparer.Ordinal);
        Assert.Empty(Compared.Sentences(lines));
    }

    [Fact]
    public void The_order_of_checks_and_another_name_of_the_set_are_no_change()
    {
        var at = Documents.Valid.IndexOf("  - id: mode-check", StringComparison.Ordinal);
        var head = Documents.Valid.IndexOf("  - id: vacuum", StringComparison.Ordinal);
        var turned = (Documents.Valid[..head] + Documents.Valid[at..] + Documents.Valid[head..at]).Replace("name: ward-7", "name: ward-8", StringComparison.Ordinal);

        Assert.Contains(Compared.Lines(Documents.Valid, turned), line => line.StartsWith("Equal: ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_check_that_comes_or_goes_is_told_with_its_limits_and_what_they_rest_on()
    {
        var one = Documents.With("    withheldBy: mode-check\n", "");
        var other = one[..one.IndexOf("  - id: mode-check", StringComparison.Ordinal)];

        Assert.Equal(
            [
                "Mode check [mode-check]: removed (neither)",
                "  Mode check, all ages: other than full line",
                "    Ward policy 7.3, invented [local]; COMMON PRACTICE: no source found",
                "  Mode check, severity of a breach: high",
                "  Mode check, mode: silent (judged and recorded, nothing leaves the service)",
                "  Mode check, what it says: The regulator is on {value}.",
                "  Mode check, what the policy asks: The policy asks for another mode.",
                "",
                "0 limits looser, 0 stricter, 1 check removed, 1 check unchanged",
            ],
            Compared.Lines(one, other)[4..^1], StringComparer.Ordinal);
        Assert.Contains("Mode check [mode-check]: added (stricter)", Compared.Lines(other, one.Replace("    say: \"The regulator", "    mode: live\n    say: \"The regulator", StringComparison.Ordinal)), StringComparer.Ordinal);
    }

    [Fact]
    public void Ages_that_share_a_change_and_not_their_source_are_one_sentence_with_a_line_for_each_source()
    {
        var changed = Documents.With("13.5 kPa", "80 mm[Hg]").Replace("source: local, status: cited }\n      child", "source: memory, status: disputed }\n      child", StringComparison.Ordinal);

        var lines = Compared.Lines(changed, changed.Replace("\"80 mm[Hg]\"", "\"90 mm[Hg]\"", StringComparison.Ordinal));

        var at = Array.IndexOf(lines, "  Neonate and infant vacuum ceiling: 80 mmHg or less becomes 90 mmHg or less (looser)");
        Assert.Equal(
            [
                "    was and now: neonate: Ward policy 7.3, invented [local]; cited: read in this source",
                "    was and now: infant: A text recalled, invented [memory]; DISPUTED: another publication of the same source prints another figure",
            ],
            lines[(at + 1)..(at + 3)], StringComparer.Ordinal);
    }

    [Fact]
    public void Faults_of_either_document_are_told_and_nothing_is_compared()
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter { NewLine = "\n" };
        var faulty = Documents.Read(Documents.With("schema: 1", "schema: 2"));

        Assert.Equal(1, RulesCompare.Write(faulty, ShippedRuleSets.Load("strict-ranges"), asJson: false, output, errors));
        Assert.Equal(2, RulesCompare.Write(faulty, RuleSetLibrary.Resolve("no-such-set"), asJson: true, output, errors));

        Assert.Empty(output.ToString());
        Assert.Equal(2, errors.ToString().Split("AG3105").Length - 1);
        Assert.Contains("AG3001", errors.ToString(), StringComparison.Ordinal);
    }

    private static List<string> Directions(RuleSetReading from, RuleSetReading to)
    {
        using var json = JsonDocument.Parse(Compared.Text(from, to, asJson: true));
        return [.. json.RootElement.GetProperty("checks").EnumerateArray()
            .SelectMany(check => check.GetProperty("changes").EnumerateArray()).Select(change => change.GetProperty("direction").GetString()!)];
    }
}
