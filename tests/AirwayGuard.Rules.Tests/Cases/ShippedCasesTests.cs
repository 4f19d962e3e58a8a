using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Cases;
using AirwayGuard.Rules.Proving;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Tests.Cases;

/// <summary>The cases beside the two shipped sets hold, and together they hold every limit of both in place.</summary>
public sealed class ShippedCasesTests
{
    public static TheoryData<string> Names => [.. ShippedRuleSets.Names];

    private static RuleSet Load(string name) => ShippedRuleSets.Load(name).RuleSet!;

    private static ImmutableArray<(string File, Case Case)> CasesOf(string name)
    {
        var selection = CaseSelection.Of(ShippedRuleSets.Load(name), CaseLibrary.OfShipped(name));
        Assert.Empty(selection.Faults);
        return selection.Cases;
    }

    private static ILookup<string, Case> ByCheck(string name) =>
        CasesOf(name).SelectMany(one => one.Case.About.Select(check => (check, one.Case))).ToLookup(pair => pair.check, pair => pair.Case, StringComparer.Ordinal);

    // A check whose limit is left to the site finds nothing in any chart.
    private static bool HasLimit(Rule rule) => rule.Criteria.Any(criterion => RuleLimits.OfBands(criterion.Limits).Any());

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_shipped_case_holds(string name)
    {
        var set = Load(name);

        var broken = CasesOf(name)
            .Select(one => (one.File, one.Case, CaseComparison.Of(one.Case, new CaseChart(one.Case).Judge(set)).Differences))
            .Where(one => one.Differences.Length > 0)
            .Select(one => $"{one.File}:{one.Case.At.Line} {one.Case.Name}: {string.Join("; ", one.Differences)}")
            .ToList();

        Assert.True(broken.Count == 0, string.Join('\n', broken));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_small_change_to_a_shipped_set_is_noticed_by_a_case(string name)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();

        var exit = RulesTest.Run(ShippedRuleSets.Load(name), [], prove: true, output, errors);

        Assert.True(exit == RulesTest.Holds, $"{output}{errors}");
        Assert.Matches(@": (\d+) of \1 small changes to its rules are noticed by a case", output.ToString());
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_check_has_a_case_that_fires_and_one_that_does_not(string name)
    {
        var cases = ByCheck(name);
        var lacking = new List<string>();
        foreach (var rule in Load(name).Rules)
        {
            if (HasLimit(rule) && !cases[rule.Id].Any(one => one.Finds.Any(finding => finding.Check == rule.Id)))
            {
                lacking.Add($"{rule.Id} never fires");
            }

            if (!cases[rule.Id].Any(one => one.Finds.All(finding => finding.Check != rule.Id) && one.CannotTell.All(open => open.Check != rule.Id)))
            {
                lacking.Add($"{rule.Id} always fires or is left open");
            }
        }

        Assert.True(lacking.Count == 0, string.Join('\n', lacking));
    }

    /// <summary>Where charting can end what stands, a case shows how. What stands on an order ends with the order, which is no fact of a chart.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_check_that_stands_has_a_case_in_which_it_ends(string name)
    {
        var cases = ByCheck(name);

        var lacking = Load(name).Rules
            .Where(rule => rule.Stands is not (Standing.Once or Standing.Order) && HasLimit(rule))
            .Where(rule => !cases[rule.Id].Any(one => one.Finds.Any(finding => finding.Check == rule.Id && finding.IsOpen == false)))
            .Select(rule => rule.Id)
            .ToList();

        Assert.True(lacking.Count == 0, string.Join('\n', lacking));
    }

    /// <summary>The value exactly at the limit is charted: a limit that took the other side of its own number would break a case.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_number_of_every_band_has_a_case_at_its_edge(string name)
    {
        var set = Load(name);
        var cases = ByCheck(name);
        var lacking = new List<string>();
        for (var r = 0; r < set.Rules.Length; r++)
        {
            var rule = set.Rules[r];
            for (var c = 0; c < rule.Criteria.Length; c++)
            {
                foreach (var (band, other) in Bands.SelectMany(band => BesideItsEdge(rule.Criteria[c], band)))
                {
                    var limits = new BandLimits([.. Bands.Select(one => one == band ? other : rule.Criteria[c].Limits.For(one))]);
                    var changed = rule with { Criteria = rule.Criteria.SetItem(c, rule.Criteria[c] with { Limits = rule.Criteria[c].Limits.AreOne ? BandLimits.All(other) : limits }) };
                    var slipped = set with { Rules = set.Rules.SetItem(r, changed) };
                    if (cases[rule.Id].All(one => CaseComparison.Of(one, new CaseChart(one).Judge(slipped)).Holds))
                    {
                        lacking.Add($"{rule.Id}, {band}: {LimitWords.Short(other)}");
                    }
                }
            }
        }

        Assert.True(lacking.Count == 0, string.Join('\n', lacking));
    }

    private static readonly AgeBand[] Bands = [AgeBand.Neonate, AgeBand.Infant, AgeBand.Child, AgeBand.Adult];

    private static IEnumerable<(AgeBand Band, Limit Other)> BesideItsEdge(Criterion criterion, AgeBand band)
    {
        if (criterion.Limits.For(band) is not { } limit || limit.Comparison is Comparison.Is or Comparison.IsNot or Comparison.Missing)
        {
            return [];
        }

        var step = criterion.Measure.OnlyRuns && limit.Unit == Unit.Hour ? 1m / 60m : LimitSteps.Of(limit.Unit);
        Limit[] others = limit.Comparison switch
        {
            Comparison.Outside => [limit with { Low = limit.Low + step }, limit with { High = limit.High - step }],
            // Of time that runs both sides lie next to the instant itself.
            _ when criterion.Measure.OnlyRuns => [limit with { Low = limit.Low - step }, limit with { Low = limit.Low + step }],
            Comparison.Above => [limit with { Comparison = Comparison.AtOrAbove }],
            Comparison.AtOrAbove => [limit with { Comparison = Comparison.Above }],
            Comparison.Below => [limit with { Comparison = Comparison.AtOrBelow }],
            _ => [limit with { Comparison = Comparison.Below }],
        };
        return others.Select(other => (band, other));
    }

    [Fact]
    public void Cases_of_checks_that_are_worded_the_same_are_borrowed_and_no_others()
    {
        var (strict, guideline) = (ShippedRuleSets.Load("strict-ranges"), ShippedRuleSets.Load("guideline-2022"));

        var borrowed = CasesOf("guideline-2022").Where(one => one.File.StartsWith("strict-ranges", StringComparison.Ordinal)).ToList();

        Assert.NotEmpty(borrowed);
        Assert.All(borrowed.SelectMany(one => one.Case.About), check => Assert.Equal(strict.RuleTexts[check], guideline.RuleTexts[check]));
        Assert.DoesNotContain(borrowed, one => one.Case.About.Contains("vacuum-above-ceiling", StringComparer.Ordinal));
    }
}
