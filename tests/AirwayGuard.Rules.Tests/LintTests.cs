using System.Reflection;
using AirwayGuard.Core.Diagnostics;
using static System.FormattableString;

namespace AirwayGuard.Rules.Tests;

/// <summary>One fault each: a passage of the valid document, what it is changed to, and the code at the place marked §.</summary>
public sealed class LintTests
{
    private const string Adult = """adult: { limit: "150 mm[Hg]", source: memory, status: from-memory }""";
    private const string Tight = """above: { limit: "120 mm[Hg]", source: local, status: cited }""";
    private const string Allow = """- { reason: thick-secretions, bands: [adult], limit: "200 mm[Hg]", source: local, status: cited }""";
    private const string FullLine = "all: { limit: full-line, source: local, status: common-practice }";
    private const string Is = "    is:\n      " + FullLine;

    // A rule with anyOf: the measure line goes with the comparison, so the passage holds both.
    private const string Measured = "    measure: regulator-mode\n" + Is;
    private const string AnyOf = "    anyOf:\n      - measure: regulator-mode\n        is: { " + FullLine + " }\n";

    public static TheoryData<string, string, string> Faults => new()
    {
        // The document as such.
        { "title: Ward 7", "title: §[Ward 7", "AG3005" },
        { "title: Ward 7", "title: §\"Ward 7", "AG3005" },
        { "title: Ward 7", "title: Ward 7\n§\tindented: by-tab", "AG3005" },
        { "title: Ward 7", "title: §&name Ward 7", "AG3008" },
        { "title: Ward 7", "title: §*name", "AG3007" },
        { "title: Ward 7", "title: §!!str Ward 7", "AG3009" },
        { "title: Ward 7", "title: §!ward Ward 7", "AG3009" },
        { "    clears: another mode\n", "    clears: another mode\n§---\nschema: 1\n", "AG3011" },
        { "title: Ward 7", "title: [[[[[[[[[[[[[[[[[[[§[7]]]]]]]]]]]]]]]]]]]]", "AG3006" },

        // Keys and shapes.
        { "title: Ward 7", "title: Ward 7\n§title: Ward 8", "AG3101" },
        { "    severity: high\n    withheldBy", "    severity: high\n    §severity: low\n    withheldBy", "AG3101" },
        { "  memory:", "  §local: twice\n  memory:", "AG3101" },
        { "title: Ward 7", "title: Ward 7\n§titel: Ward 8", "AG3102" },
        { "    stands: regulator", "    §stand: regulator", "AG3102" },
        { "    stands: regulator", "    §<<: { stands: regulator }", "AG3102" },
        { Adult, Adult.Replace("status:", "unit: kPa, status:").Replace("unit", "§unit"), "AG3102" },
        { "      child: not-judged", "      child: not-judged\n      §adolescent: not-judged", "AG3102" },
        { "schema: 1\n", "§", "AG3103" },
        { "schema: 1\nname: ward-7\n", "§schema: 1\n", "AG3103" },
        { "  - id: mode-check\n    judges", "  - §judges", "AG3310@23:17 AG3103" },
        { "    clears: a lower reading\n", "", "AG3103@9:5" },
        { "      - when: { intracranial-pressure-monitored: yes }\n        above", "      - §above", "AG3103" },
        { "title: Ward 7", "title: §[Ward 7]", "AG3104" },
        { "title: Ward 7", "title:§", "AG3104" },
        { "    stands: regulator", "    stands: regulator\n    needsAge: §maybe", "AG3104" },
        { "    judges: [setting]\n    measure: vacuum-pressure", "    judges: §[]\n    measure: vacuum-pressure", "AG3104" },
        { Adult, "adult: §150", "AG3104" },
        { Allow, Allow.Replace(", limit: \"200 mm[Hg]\"", "").Replace("bands", "§bands"), "AG3104" },
        { "schema: 1", "schema: §2", "AG3105" },
        { "schema: 1", "schema: §[1]", "AG3105" },
        { "  - id: vacuum-above-ceiling", "  - id: §Vacuum_Ceiling", "AG3106" },
        { "name: ward-7", "name: §ward--7", "AG3106" },

        // Measures and limits.
        { "measure: vacuum-pressure", "measure: §vacuum-presure", "AG3201" },
        { "{ intracranial-pressure-monitored: yes }", "{ §intracranial-pressure: yes }", "AG3201" },
        { Is + "\n", "", "AG3202@31:5" },
        { Is, Is + "\n    §missing:\n      all: { source: local, status: cited }", "AG3203" },
        { Is, Is.Replace("is:", "§above:"), "AG3204" },
        { Is, "    §missing:\n      all: { source: local, status: cited }", "AG3204" },
        { "    above:\n", "    §is:\n", "AG3204" },
        { Measured, Measured.Replace("regulator-mode", "time-since-vacuum-read").Replace("    is:", "    §below:").Replace("full-line", "12 h"), "AG3303@33:14 AG3204" },
        { "\"150 mm[Hg]\"", "§\"150,5 mm[Hg]\"", "AG3205" },
        { "\"150 mm[Hg]\"", "§\"-150 mm[Hg]\"", "AG3205" },
        { "\"150 mm[Hg]\"", "§\"1e3 mm[Hg]\"", "AG3205" },
        { "\"150 mm[Hg]\"", "§\"99999999999999999999999999999999 mm[Hg]\"", "AG3205" },
        { "\"150 mm[Hg]\"", "§\"150 cm\"", "AG3206" },
        { "\"150 mm[Hg]\"", "§\"150 mmHg\"", "AG3206" },
        { "\"150 mm[Hg]\"", "§150", "AG3206" },
        { "limit: full-line", "limit: §fullline", "AG3207" },
        { "      child: not-judged\n", "", "AG3208@12:5" },
        { "      child: not-judged", "      child: not-judged\n      all: { limit: \"90 mm[Hg]\", source: local, status: cited }", "AG3209@13:7 AG3209@14:7 AG3209@15:7 AG3209@17:7" },
        { FullLine, "all: not-judged", "AG3210@34:5" },
        { FullLine, "all: §{ limit: full-line, status: common-practice }", "AG3211" },
        { FullLine, "all: §{ limit: full-line, source: local }", "AG3212" },
        { FullLine, FullLine.Replace("local", "§locla"), "AG3213" },
        { FullLine, FullLine.Replace("common-practice", "§common"), "AG3214" },

        { Is, Is + "\n" + AnyOf.TrimEnd(), "AG3104@33:5 AG3104@34:5" },

        { Adult, Adult.Replace("\"150 mm[Hg]", "§\"1500 mm[Hg]"), "AG3215" },
        { Adult, Adult.Replace("\"150 mm[Hg]", "§\"150 kPa"), "AG3215" },
        { Adult, Adult.Replace("\"150 mm[Hg]", "§\"760.5 mm[Hg]"), "AG3215" },
        { Tight, Tight.Replace("\"120 mm[Hg]", "§\"120 kPa"), "AG3215" },

        { Measured, "    measure: catheter-to-tube-ratio\n    above:\n      all: { limit: §50, source: local, status: cited }", "AG3303@33:14 AG3216" },
        { Measured, "    measure: spo2-nadir\n    below:\n      all: { limit: §\"0.85\", source: local, status: cited }", "AG3303@33:14 AG3206" },
        { Measured, "    measure: spo2-nadir\n    below:\n      all: { limit: §\"850 %\", source: local, status: cited }", "AG3303@33:14 AG3216" },

        // Rules.
        { "  - id: mode-check", "  - id: §vacuum-above-ceiling", "AG3310@23:17 AG3301" },
        { "judges: [setting]\n    measure: vacuum-pressure", "judges: [setting, §settings]\n    measure: vacuum-pressure", "AG3302" },
        { "judges: [setting]\n    measure: regulator-mode", "judges: [setting, pass]\n    measure: §regulator-mode", "AG3303" },
        { "    severity: high\n    say", "    severity: §hgih\n    say", "AG3304" },
        { "    severity: high\n    withheldBy", "    severity: { moderate: 10, §severe: 20 }\n    withheldBy", "AG3305@22:5 AG3304" },
        { "    severity: high\n    say", "    §severity: { moderate: 1, high: 2 }\n    say", "AG3305" },
        { "    severity: high\n    withheldBy", "    §severity: { moderate: 80, high: 180 }\n    withheldBy", "AG3305" },
        { "    stands: regulator", "    stands: §patient", "AG3306" },
        { "mode: { default: silent }", "mode: { default: §quiet }", "AG3307" },
        { "mode: { default: silent }", "mode: §on", "AG3307" },
        { "waits: 3 h", "waits: §49 h", "AG3308" },
        { "waits: 3 h", "waits: §2881 min", "AG3308" },
        { "waits: 3 h", "waits: §a while", "AG3308" },
        { "waits: 3 h", "waits: §-1 h", "AG3308" },
        { "holds: 3 min", "holds: §61 min", "AG3308" },
        { "say: \"Vacuum {value}", "say: §\"Vacuum {valeu}", "AG3309" },
        { "do: \"The policy asks for at most {limit}.\"", "do: §\"The policy asks for at most {limit.\"", "AG3309" },
        { "do: \"The policy asks for at most {limit}.\"", "do: §\"The policy asks for at most {{limit}}.\"", "AG3309" },
        { "withheldBy: mode-check", "withheldBy: §mode-chek", "AG3310" },
        { "withheldBy: mode-check", "withheldBy: §vacuum-above-ceiling", "AG3310" },

        { "    severity: high\n    say", "    severity: high\n    withheldBy: §vacuum-above-ceiling\n    say", "AG3312@23:17 AG3312" },

        // Circumstances and allowances.
        { "    stands: regulator", "    stands: regulator\n    §unless: { vacuum-pressure: { above: \"80 mm[Hg]\" } }", "AG3409" },
        { Tight, "§" + Tight.Replace("120", "150"), "AG3401" },
        { Tight, "§" + Tight.Replace("120 mm[Hg]", "20.1 kPa"), "AG3401" },
        { Tight, "§" + Tight.Replace("above", "below"), "AG3402" },
        { "    say: \"The regulator", "    tighten:\n      - when: { intracranial-pressure-monitored: yes }\n        §is: { limit: \"off\", source: local, status: cited }\n    say: \"The regulator", "AG3402" },
        { Measured, AnyOf + "    §tighten:\n      - when: { intracranial-pressure-monitored: yes }\n        is: { limit: \"off\", source: local, status: cited }", "AG3403" },
        { "    say: \"The regulator", "    allow:\n      - { reason: emergency, bands: all, §limit: full-line, source: local, status: cited }\n    say: \"The regulator", "AG3403" },
        { "    stands: regulator", "    stands: regulator\n    unless: { intracranial-pressure-monitored: yes }", "AG3409@18:9" },
        { Tight, Tight + "\n      - §when: { intracranial-pressure-monitored: yes, regulator-mode: regulated }\n        " + Tight, "AG3409" },
        { "{ intracranial-pressure-monitored: yes }", "{ intracranial-pressure-monitored: §maybe }", "AG3404" },
        { "    stands: regulator", "    stands: regulator\n    unless: { intracranial-pressure-monitored: §y }", "AG3404" },
        { Allow, "- §{ bands: [adult], limit: \"200 mm[Hg]\", source: local, status: cited }", "AG3405" },
        { Allow, Allow.Replace("thick-secretions", "§thick"), "AG3406" },
        { Allow, Allow + "\n      " + Allow.Replace("reason", "§reason"), "AG3407" },
        { Allow, Allow + "\n      " + Allow.Replace("reason: thick-secretions", "§reason: emergency").Replace("200", "250"), "AG3407" },
        { Allow, Allow.Replace("\"200 mm[Hg]\"", "§\"140 mm[Hg]\""), "AG3408" },
        { Allow, Allow.Replace("[adult]", "[child]").Replace("\"200 mm[Hg]\"", "§\"200 mm[Hg]\""), "AG3408" },
    };

    /// <param name="expected">Codes in the document's order, each at the next § or at <c>@line:column</c>.</param>
    [Theory]
    [MemberData(nameof(Faults))]
    public void Each_fault_is_named_by_its_code_at_its_place(string passage, string changed, string expected)
    {
        var (document, places) = Documents.TakeMarks(Documents.With(passage, changed));

        var reading = Documents.Read(document);

        var marks = new Queue<(int Line, int Column)>(places);
        var awaited = expected.Split(' ').Select(one => one.Contains('@') ? one : Invariant($"{one}@{marks.Peek().Line}:{marks.Dequeue().Column}"));
        Assert.Equal(awaited, reading.Faults.Select(fault => Invariant($"{fault.Code.Id}@{fault.Line}:{fault.Column}")), StringComparer.Ordinal);
        Assert.Empty(marks);
        Assert.Null(reading.RuleSet);
        Assert.All(reading.Faults, fault =>
        {
            Assert.Equal("ward.yaml", fault.File);
            Assert.EndsWith(".", fault.Allowed, StringComparison.Ordinal);
            Assert.NotEmpty(fault.What);
        });
    }

    [Fact]
    public void Every_code_for_rule_sets_is_reached_by_a_test()
    {
        // Those of files and bytes are in RuleSetLibraryTests and HostileDocumentTests; what is noted and no fault in RulesLintTests; of bases in StartsFromTests, of cases in the tests of cases.
        string[] elsewhere = ["AG3001", "AG3002", "AG3003", "AG3004", "AG3010", "AG3012", "AG3013", "AG3014", "AG3107", "AG3108", "AG3109", "AG3110", "AG3111", "AG3112", "AG3113", "AG3311", "AG3313", "AG3509", "AG3511", "AG3501", "AG3502", "AG3503", "AG3504", "AG3505", "AG3506", "AG3507", "AG3508"];

        // Those of sign-offs are in the tests of the rooms that sign off.
        elsewhere = [.. elsewhere, .. Enumerable.Range(3601, 10).Select(static number => Invariant($"AG{number}"))];

        var defined = typeof(Codes).GetFields(BindingFlags.Public | BindingFlags.Static)
            .Select(field => field.GetValue(null)).OfType<DiagnosticCode>()
            .Select(code => code.Id).Where(id => id.StartsWith("AG3", StringComparison.Ordinal)).ToList();

        var tabled = Faults.SelectMany(row => row.Data.Item3.Split(' ')).Select(one => one.Split('@')[0]);
        Assert.Equal(
            defined.Order(StringComparer.Ordinal),
            tabled.Concat(elsewhere).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal),
            StringComparer.Ordinal);
        Assert.Distinct(defined, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("measure: vacuum-pressure", "measure: vacuum-presure", "Did you mean vacuum-pressure?")]
    [InlineData("    stands: regulator", "    stand: regulator", "Did you mean stands?")]
    [InlineData("    severity: high\n    say", "    severity: hgih\n    say", "Did you mean high?")]
    [InlineData("withheldBy: mode-check", "withheldBy: mode-chek", "Did you mean mode-check?")]
    [InlineData("limit: full-line", "limit: fulline", "Did you mean full-line?")]
    [InlineData("\"150 mm[Hg]\"", "\"150 mmHg\"", "'mmHg', in UCUM mm[Hg]")]
    public void A_slip_is_told_with_the_word_that_was_meant(string passage, string changed, string told)
    {
        var fault = Assert.Single(Documents.Read(Documents.With(passage, changed)).Faults);

        Assert.Contains(told, fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void All_faults_of_a_document_are_listed_at_once_in_its_order()
    {
        var (document, places) = Documents.TakeMarks(Documents.Valid
            .Replace("name: ward-7", "§nmae: ward-7", StringComparison.Ordinal)
            .Replace(Adult, Adult.Replace("memory,", "§books,"), StringComparison.Ordinal)
            .Replace("waits: 3 h", "waits: §3 d", StringComparison.Ordinal)
            .Replace("measure: regulator-mode", "measure: §regulator", StringComparison.Ordinal)
            .Replace("clears: another mode", "clears: §[]", StringComparison.Ordinal));

        var faults = Documents.Read(document).Faults;

        Assert.Equal(
            ["AG3103", "AG3102", "AG3213", "AG3308", "AG3201", "AG3104"], faults.Select(fault => fault.Code.Id), StringComparer.Ordinal);
        Assert.Equal(places, faults.Where(fault => fault.Code.Id != "AG3103").Select(fault => (fault.Line, fault.Column)));
    }

    [Fact]
    public void A_fault_prints_as_one_line_with_place_code_and_what_is_allowed()
    {
        var fault = Assert.Single(Documents.Read(Documents.With("    stands: regulator", "    stands: patient")).Faults);

        Assert.Equal("ward.yaml:24:13: AG3306 stands is 'patient'. Allowed: regulator, episode, airway, order, outlet.", fault.ToString());
    }
}
