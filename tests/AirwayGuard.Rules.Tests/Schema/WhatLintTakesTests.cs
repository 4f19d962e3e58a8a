using System.Text;
using AirwayGuard.Rules.Tests.Comparing;

namespace AirwayGuard.Rules.Tests.Schema;

/// <summary>Lint is the stricter one: no document that is used may be marked as wrong in an editor.</summary>
public sealed class WhatLintTakesTests
{
    private const string Severity = "    severity: high\n    withheldBy";

    /// <summary>A passage of the valid document and what may stand in its place.</summary>
    public static TheoryData<string, string> Variants => new()
    {
        { "schema: 1", "schema: \"1\"" },
        { "version: 2026.1", "version: 1.0.0" },
        { "title: Ward 7", "title: 7" },
        { "name: ward-7", "name: 7" },
        { "  local: \"Ward policy 7.3, invented\"", "  local: 7.3" },
        { "judges: [setting]\n    measure: v", "judges: setting\n    measure: v" },
        { "    judges: [setting]\n    measure: v", "    title: vacuum at the wall\n    judges: [setting, setting]\n    measure: v" },
        { "mode: { default: silent }", "mode: live" },
        { "waits: 3 h", "waits: 0 min" },
        { "waits: 3 h", "waits: 48 h" },
        { "waits: 3 h", "waits: 2880 min" },
        { "waits: 3 h", "waits: \" 007  h \"" },
        { "holds: 3 min", "holds: 1 h" },
        { "holds: 3 min", "holds: 60 min" },
        { "    stands: regulator", "    stands: regulator\n    needsAge: yes" },
        { "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: { atOrBelow: \"5 kPa\" }, regulator-mode: { isNot: regulated } }" },
        { "    stands: regulator", "    stands: regulator\n    unless: { regulator-mode: off, vacuum-pressure: { outside: \"20 to 30 kPa\" } }" },
        { "    stands: regulator\n", "" },
        { "\"150 mm[Hg]\"", "\"150   mm[Hg] \"" },
        { "\"150 mm[Hg]\"", "\"150.50 mm[Hg]\"" },
        { "\"80 mm[Hg]\"", "\".5 [in_i'Hg]\"" },
        { "\"80 mm[Hg]\"", "\"5. kPa\"" },
        { ", bands: [adult], limit: \"200 mm[Hg]\"", ", bands: all" },
        { ", bands: [adult], limit: \"200 mm[Hg]\"", ", bands: [all]" },
        { ", bands: [adult], limit: \"200 mm[Hg]\"", ", bands: [neonate, infant, child, adult]" },
        { "bands: [adult]", "bands: adult" },
        { "above: { limit: \"120 mm[Hg]\", source: local, status: cited }", "atOrAbove: { adult: { limit: \"16 kPa\", source: local, status: disputed }, child: not-judged }" },
        { "all: { limit: full-line, source: local, status: common-practice }", "all: site-sets" },
        { "all: { limit: full-line, source: local, status: common-practice }", "{ neonate: not-judged, infant: not-judged, child: not-judged, adult: { limit: \"off\", source: local, status: cited } }" },
        { "    severity: high\n    say", "    severity: high\n    sayInstead: { full-line: \"{band} on {value}.\" }\n    say" },
        { "    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }\n    severity: high",
            "    anyOf:\n      - { measure: regulator-mode, isNot: { all: { limit: regulated, source: local, status: cited } }, severity: low }\n"
            + "      - { measure: least-vacuum, below: { all: { limit: 5 kPa, source: local, status: cited } }, severity: high }" },
        { "    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }",
            "    anyOf:\n      - { measure: regulator-mode, isNot: { all: { limit: regulated, source: local, status: cited } } }" },
        { "judges: [setting]\n    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }",
            "judges: [pass, order]\n    measure: saline-given\n    is:\n      all: { limit: true, source: local, status: cited }" },
        { "judges: [setting]\n    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }\n    severity: high",
            "judges: pass\n    measure: catheter-to-tube-ratio\n    above:\n      all: { limit: 0.50, source: local, status: cited }\n    severity: { low: 0, moderate: \"0.6 1\", high: 0.70 }" },
        { "judges: [setting]\n    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }",
            "judges: session\n    measure: passes-in-session\n    outside:\n      all: { limit: \"1 to 3 {passes}\", source: local, status: cited }" },
        { "judges: [setting]\n    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }",
            "judges: pass\n    measure: saline-volume\n    above:\n      all: { limit: 0 ml, source: local, status: cited }" },
    };

    [Theory]
    [MemberData(nameof(Variants))]
    public void A_document_that_lint_takes_is_valid(string passage, string changed) => Holds(Documents.With(passage, changed));

    [Theory]
    [MemberData(nameof(RulesCompareTests.Changes), MemberType = typeof(RulesCompareTests))]
    public void A_document_that_is_compared_is_valid(string passage, string changed, string expected)
    {
        Assert.NotEmpty(expected);
        Holds(Documents.With(passage, changed));
    }

    [Fact]
    public void A_check_of_something_missing_is_valid() => Holds(Documents.With(
        "judges: [setting]\n    measure: regulator-mode\n    is:\n      all: { limit: full-line, source: local, status: common-practice }",
        "judges: pass\n    measure: preoxygenation-given\n    missing:\n      { neonate: not-judged, infant: site-sets, child: { source: local, status: cited }, adult: { source: local, status: cited } }\n    sayInstead: { charted: Too little. }")
        .Replace("say: \"The regulator is on {value}.\"", "say: \"Nothing is charted for this {band}.\"", StringComparison.Ordinal));

    [Fact]
    public void Steps_of_severity_in_the_unit_of_the_limits_are_valid() => Holds(
        Documents.With(Severity, "    severity: { high: 200, low: \"80 mm[Hg]\", moderate: 180 }\n    withheldBy").Replace("\"13.5 kPa\"", "\"100 mm[Hg]\"", StringComparison.Ordinal));

    [Fact]
    public void A_mutilated_copy_that_lint_still_takes_is_valid()
    {
        // Signs that change a value and seldom break the document.
        const string Signs = "0123456789 .-{}[]\"'~abcHgks";
        var random = new Random(20261130);
        var taken = 0;
        for (var round = 0; round < 1500 && taken < 60; round++)
        {
            var text = new StringBuilder(Documents.Valid);
            for (var change = random.Next(1, 4); change > 0; change--)
            {
                var at = random.Next(text.Length);
                switch (random.Next(3))
                {
                    case 0: text.Remove(at, 1); break;
                    case 1: text.Insert(at, Signs[random.Next(Signs.Length)]); break;
                    default: text[at] = Signs[random.Next(Signs.Length)]; break;
                }
            }

            var document = text.ToString();
            if (Documents.Read(document).RuleSet is not null)
            {
                taken++;
                Assert.True(EditorSchema.Takes(document), $"{document}\n{EditorSchema.Why(document)}");
            }
        }

        Assert.Equal(60, taken);
    }

    /// <summary>What may stand in a document that starts from another.</summary>
    public static TheoryData<string> Differing =>
    [
        "",
        "rules:\n  - id: vacuum-above-ceiling\n    above:\n      adult: { limit: \"120 mm[Hg]\", source: local, status: cited }\n    tighten: none\n",
        "rules:\n  - { id: pass-too-long, mode: silent, waits: 1 h }\n",
        "rules:\n  - { id: preoxygenation-missing, unless: none, stands: none }\n",
        "without: wall-supply-unsurveyed\n",
        "without: [wall-supply-unsurveyed, suctioned-too-often]\nrules:\n  - { id: catheter-too-wide, severity: high }\n",
        "rules:\n  - id: catheter-too-wide\n    atOrAbove:\n      all: { limit: \"0.50\", source: local, status: cited }\n    severity: high\n",
        "rules:\n" + OwnRule,
    ];

    private const string OwnRule =
        """
          - id: our-cuff
            title: cuff pressure
            judges: [cuff]
            measure: cuff-pressure
            above:
              all: { limit: "25 cm[H2O]", source: local, status: cited }
            severity: low
            say: "Cuff pressure {value} is above {limit}."
            do: "The policy asks for at most {limit}."
            clears: a later reading

        """;

    [Theory]
    [MemberData(nameof(Differing))]
    public void What_may_stand_in_a_document_that_starts_from_another_is_valid(string rest) =>
        Holds($"schema: 1\nname: willowmere\nversion: 1.0.0\ntitle: Willowmere\nfrom: strict-ranges\nsources:\n  local: \"Invented\"\n{rest}");

    [Theory]
    [InlineData("rules:\n  - { mode: silent }\n")]
    [InlineData("rules:\n  - { id: pass-too-long, mode: quiet }\n")]
    [InlineData("rules:\n  - { id: pass-too-long, tighten: nothing }\n")]
    [InlineData("rules:\n  - { id: pass-too-long, above: { adult: { limit: 12 s } } }\n")]
    [InlineData("without: []\n")]
    public void A_slip_in_a_document_that_starts_from_another_is_refused_by_both(string rest)
    {
        var document = $"schema: 1\nname: willowmere\nversion: 1.0.0\ntitle: Willowmere\nfrom: strict-ranges\n{rest}";

        Assert.NotEmpty(Documents.Read(document).Faults);
        Assert.False(EditorSchema.Takes(document));
    }

    private static void Holds(string document)
    {
        Assert.Empty(Documents.Read(document).Faults);
        Assert.True(EditorSchema.Takes(document), EditorSchema.Why(document));
    }
}
