using System.Globalization;
using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Tests.Pages;

/// <summary>The page of all checks as the shipped rule sets hold them, as it must read.</summary>
internal static class ChecksPage
{
    public const string File = "docs/checks.md";

    /// <summary>Set to 1, the tests rewrite the page instead of comparing it.</summary>
    public const string Switch = "AIRWAYGUARD_WRITE_DOCS";

    private const string Intro =
        """
        # Checks

        What each check looks at, when it speaks, which limit it holds in each age band and who published that limit, what ends it, and
        what must be charted for it to say anything. Where nothing is charted a check says *cannot tell*; it never takes that for a pass.

        A limit here is a published figure or common practice, not advice. Each needs local approval before use: local policy and
        licensed practice decide. Statuses: *cited* was read in its source; *common practice* has no source we found; *from memory*
        was not opened; *disputed* is printed otherwise by another publication of the same source.

        A check stands, and raises a Flag, on what the entry names; one that stands on nothing is recorded with its pass, session or
        order only. Silent checks are judged and recorded, and nothing leaves the service until a site makes them live.
        """;

    /// <summary>The whole page.</summary>
    public static string Write()
    {
        var sets = ShippedRuleSets.Names.Select(name => ShippedRuleSets.Load(name).RuleSet!).ToList();
        var page = new StringBuilder(Intro.ReplaceLineEndings("\n"));
        page.Append(CultureInfo.InvariantCulture, $"\n\nThis page is written from the shipped rule sets by the tests with `{Switch}=1`; do not edit it by hand.\n");
        page.Append("\n| check | judges | severity | flag on | mode |\n|---|---|---|---|---|\n");
        foreach (var rule in sets[0].Rules)
        {
            page.Append(CultureInfo.InvariantCulture,
                $"| [{rule.Id}](#{rule.Id}) | {Kinds(rule)} | {Severities(rule)} | {StandsOn(rule)} | {Words.Of(Words.Modes, rule.Mode)} |\n");
        }

        foreach (var rule in sets[0].Rules)
        {
            Entry(page, rule, sets);
        }

        return page.ToString();
    }

    private static void Entry(StringBuilder page, Rule rule, List<RuleSet> sets)
    {
        page.Append(CultureInfo.InvariantCulture, $"\n## {rule.Id}\n\n{rule.Say}\n\n");
        foreach (var (when, say) in rule.SayInstead)
        {
            page.Append(CultureInfo.InvariantCulture, $"{(when == Rule.Charted ? "Where something is charted that does not count" : $"Where it is `{when}`")}: {say}\n\n");
        }

        foreach (var criterion in rule.Criteria)
        {
            page.Append(CultureInfo.InvariantCulture, $"- **Measures** {criterion.Measure.Meaning} (`{criterion.Measure.Id}`), of {Article(Kinds(rule))} {Kinds(rule)}\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"- **Severity** {Severities(rule)}{(rule.Criteria.Any(criterion => criterion.Severity.Steps.Length > 0) ? " (of the steps no source was found)" : "")}\n- **Flag on** {StandsOn(rule)}\n");
        page.Append(CultureInfo.InvariantCulture, $"- **Ends with** {rule.ClearedBy}\n- **Needs charted** {Needs(rule)}\n");
        if (rule.Allow.Length > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"- **Passes with a reason** {string.Join(", ", rule.Allow.Select(allowance => allowance.Reason))}\n");
        }

        if (rule.Unless.Length > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"- **Not judged where** {string.Join(", ", rule.Unless.Select(guard => $"{guard.Measure.Id} is {guard.Limit.Code}"))}\n");
        }

        page.Append("\n| rule set | ages | breach | source | status |\n|---|---|---|---|---|\n");
        foreach (var set in sets)
        {
            Limits(page, set, set.Find(rule.Id)!);
        }
    }

    private static string Article(string noun) => noun[0] is 'a' or 'e' or 'i' or 'o' or 'u' ? "an" : "a";

    private static void Limits(StringBuilder page, RuleSet set, Rule rule)
    {
        foreach (var criterion in rule.Criteria)
        {
            Rows(page, set, criterion.Limits, "");
        }

        foreach (var circumstance in rule.Tighten)
        {
            Rows(page, set, circumstance.Limits, $", where {string.Join(" and ", circumstance.When.Select(guard => guard.Measure.Id))}");
        }
    }

    private static void Rows(StringBuilder page, RuleSet set, BandLimits limits, string where)
    {
        if (!RuleLimits.OfBands(limits).Any())
        {
            page.Append(CultureInfo.InvariantCulture, $"| {set.Name} | all ages | set by the site | | |\n");
        }

        foreach (var (bands, limit, _) in RuleLimits.Grouped(limits, static (_, _) => "").Where(group => group.Limit is not null))
        {
            var title = set.Sources.FirstOrDefault(source => source.Id == limit!.Source)?.Title;
            page.Append(CultureInfo.InvariantCulture, $"| {set.Name} | {bands} | {LimitWords.Breach(limit!)}{where} | {title} | {Words.Of(Words.Statuses, limit!.Status)} |\n");
        }
    }

    private static string Needs(Rule rule) => string.Join(
        ", ",
        rule.Criteria.SelectMany(criterion => criterion.Measure.Reads).Distinct()
            .Select(concept => $"`{Concepts.Info(concept).Code}`").Order(StringComparer.Ordinal));

    private static string Kinds(Rule rule) => string.Join(" or ", rule.Judges.Select(kind => Words.Of(Words.Subjects, kind)));

    private static string StandsOn(Rule rule) => rule.Stands == Standing.Once ? "nothing" : Words.Of(Words.Standings, rule.Stands);

    private static string Severities(Rule rule) => string.Join("; ", rule.Criteria.Select(criterion => string.Join(", ",
        criterion.Severity.Steps
            .Select(step => $"{Words.Of(Words.Severities, step.Severity)} above {Words.Number(step.Above)}")
            .Prepend(Words.Of(Words.Severities, criterion.Severity.Base)))).Distinct(StringComparer.Ordinal));
}
