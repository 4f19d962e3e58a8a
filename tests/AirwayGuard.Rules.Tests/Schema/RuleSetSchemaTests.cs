using System.Text;
using AirwayGuard.Rules.Tests.Pages;
using Json.Schema;

namespace AirwayGuard.Rules.Tests.Schema;

public sealed class RuleSetSchemaTests
{
    private const string File = "docs/rule-set.schema.json";
    private const string Adult = """adult: { limit: "150 mm[Hg]", source: memory, status: from-memory }""";
    private const string FullLine = "all: { limit: full-line, source: local, status: common-practice }";
    private const string Is = "    is:\n      " + FullLine;
    private const string Allow = """- { reason: thick-secretions, bands: [adult], limit: "200 mm[Hg]", source: local, status: cited }""";

    [Fact]
    public void The_file_for_editors_reads_as_the_readers_tables()
    {
        var path = Path.Combine(Repository.Root(), File);
        if (Environment.GetEnvironmentVariable(ChecksPage.Switch) == "1")
        {
            System.IO.File.WriteAllText(path, RuleSetSchema.Text);
        }

        Assert.Equal(RuleSetSchema.Text, System.IO.File.ReadAllText(path));
    }

    [Fact]
    public void It_is_a_schema_of_draft_2020_12()
    {
        var result = MetaSchemas.Draft202012.Evaluate(System.Text.Json.Nodes.JsonNode.Parse(RuleSetSchema.Text), new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(result.IsValid, string.Join('\n', result.Details.Where(detail => detail.HasErrors).Select(detail => detail.InstanceLocation.ToString())));
        Assert.Contains("\"$schema\": \"https://json-schema.org/draft/2020-12/schema\"", RuleSetSchema.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("strict-ranges")]
    [InlineData("guideline-2022")]
    public void Every_shipped_set_is_valid(string name)
    {
        var document = Encoding.UTF8.GetString(ShippedRuleSets.Bytes(name).Span);

        Assert.True(EditorSchema.Takes(document), EditorSchema.Why(document));
    }

    /// <summary>A passage of the valid document and the fault it becomes.</summary>
    public static TheoryData<string, string> Faulty => new()
    {
        // The document.
        { "schema: 1", "schema: 2" },
        { "schema: 1\n", "" },
        { "title: Ward 7", "title:" },
        { "title: Ward 7", "titel: Ward 7" },
        { "name: ward-7", "name: ward--7" },
        { "  local: \"Ward policy 7.3, invented\"", "  Local Policy: \"Ward policy 7.3, invented\"" },
        { "  local: \"Ward policy 7.3, invented\"", "  local: \"\"" },

        // Keys of a rule.
        { "    stands: regulator", "    stand: regulator" },
        { "    clears: a lower reading\n", "" },
        { "    say: \"The regulator is on {value}.\"\n", "" },
        { "    do: \"The policy asks for another mode.\"\n", "" },
        { "    judges: [setting]\n    measure: vacuum-pressure", "    measure: vacuum-pressure" },
        { "  - id: vacuum-above-ceiling", "  - id: Vacuum_Ceiling" },
        { "  - id: vacuum-above-ceiling\n    judges", "  - judges" },
        { "judges: [setting]\n    measure: vacuum-pressure", "judges: [settings]\n    measure: vacuum-pressure" },
        { "judges: [setting]\n    measure: vacuum-pressure", "judges: [pass]\n    measure: vacuum-pressure" },
        { "judges: [setting]\n    measure: vacuum-pressure", "judges: []\n    measure: vacuum-pressure" },
        { "measure: vacuum-pressure", "measure: vacuum-presure" },
        { "    measure: vacuum-pressure\n", "" },
        { "    severity: high\n    say", "    say" },
        { "    severity: high\n    say", "    severity: hgih\n    say" },
        { "    severity: high\n    say", "    severity: { moderate: 1, high: 2 }\n    say" },
        { "    severity: high\n    withheldBy", "    severity: { moderate: 10, severe: 20 }\n    withheldBy" },
        { "    severity: high\n    withheldBy", "    severity: {}\n    withheldBy" },
        { "    stands: regulator", "    stands: patient" },
        { "mode: { default: silent }", "mode: { default: quiet }" },
        { "mode: { default: silent }", "mode: on-call" },
        { "waits: 3 h", "waits: 49 h" },
        { "waits: 3 h", "waits: 2881 min" },
        { "waits: 3 h", "waits: a while" },
        { "waits: 3 h", "waits: 3 d" },
        { "waits: 3 h", "waits: 3" },
        { "waits: 3 h", "waits: 1.5 h" },
        { "holds: 3 min", "holds: 61 min" },
        { "holds: 3 min", "holds: 2 h" },
        { "say: \"Vacuum {value}", "say: \"Vacuum {valeu}" },
        { "    stands: regulator", "    stands: regulator\n    needsAge: maybe" },
        { "    stands: regulator", "    stands: regulator\n    sayInstead: { full-line: Instead. }" },

        // Limits.
        { "    above:\n", "    is:\n" },
        { Is, Is.Replace("is:", "above:") },
        { Is + "\n", "" },
        { Is, Is + "\n    isNot:\n      " + FullLine },
        { Is, "    missing:\n      all: { source: local, status: cited }" },
        { "\"150 mm[Hg]\"", "\"150 cm\"" },
        { "\"150 mm[Hg]\"", "\"150 mmHg\"" },
        { "\"150 mm[Hg]\"", "\"150 s\"" },
        { "\"150 mm[Hg]\"", "150" },
        { "\"150 mm[Hg]\"", "\"-150 mm[Hg]\"" },
        { "\"150 mm[Hg]\"", "\"150,5 mm[Hg]\"" },
        { "\"150 mm[Hg]\"", "\"100 to 150 mm[Hg]\"" },
        { "limit: full-line", "limit: fullline" },
        { "      child: not-judged\n", "" },
        { "      child: not-judged", "      child: not-judged\n      adolescent: not-judged" },
        { "      child: not-judged", "      child: not-judged\n      all: not-judged" },
        { FullLine, "all: not-judged" },
        { FullLine, "all: { limit: full-line, status: common-practice }" },
        { FullLine, "all: { limit: full-line, source: local }" },
        { FullLine, FullLine.Replace("common-practice", "common") },
        { Adult, Adult.Replace("status:", "unit: kPa, status:") },

        // Circumstances, allowances, guards, several criteria.
        { "{ intracranial-pressure-monitored: yes }", "{ intracranial-pressure: yes }" },
        { "{ intracranial-pressure-monitored: yes }", "{ intracranial-pressure-monitored: maybe }" },
        { "{ intracranial-pressure-monitored: yes }", "{}" },
        { "when: { intracranial-pressure-monitored: yes }\n        above", "above" },
        { "\"120 mm[Hg]\"", "\"120 s\"" },
        { "        above: { limit: \"120 mm[Hg]\", source", "        above: { limit: \"120 mm[Hg]\", sources" },
        { Allow, Allow.Replace("thick-secretions", "thick") },
        { Allow, Allow.Replace("reason: thick-secretions, ", "") },
        { Allow, Allow.Replace("[adult]", "[grown-up]") },
        { Allow, Allow.Replace("\"200 mm[Hg]\"", "\"200 s\"") },
        { Allow, Allow.Replace("limit: \"200 mm[Hg]\", ", "") },
        { "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: { above: \"5 s\" } }" },
        { "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: { above: \"5 kPa\", below: \"1 kPa\" } }" },
        { "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: 5 }" },
        { Is, Is + "\n    anyOf:\n      - measure: regulator-mode\n        is: { " + FullLine + " }" },
        { "    measure: regulator-mode\n" + Is, "    anyOf: []" },
        { "    measure: regulator-mode\n" + Is, "    anyOf:\n      - measure: regulator-mode\n        is: { " + FullLine.Replace("full-line", "fullline") + " }" },
    };

    [Theory]
    [MemberData(nameof(Faulty))]
    public void A_fault_that_an_editor_can_see_is_refused_by_it_and_by_lint(string passage, string changed)
    {
        var document = Documents.With(passage, changed);

        Assert.NotEmpty(Documents.Read(document).Faults);
        Assert.True(EditorSchema.Refuses(document));
    }
}
