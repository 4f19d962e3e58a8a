using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Rules.Proving;

namespace AirwayGuard.Rules.Tests.Proving;

/// <summary>Which small changes are tried, and which are not because no chart could show them.</summary>
public sealed class RuleMutantsTests
{
    private static string[] ChangesTo(string check) =>
        [.. RuleMutants.Of(ShippedRuleSets.Load("strict-ranges").RuleSet!).Where(mutant => mutant.Check == check).Select(mutant => mutant.What)];

    [Fact]
    public void A_limit_is_moved_by_its_smallest_step_turned_over_and_left_out() => Assert.Subset(
        ChangesTo("vacuum-above-ceiling").ToHashSet(StringComparer.Ordinal),
        new HashSet<string>(StringComparer.Ordinal)
        {
            "neonate 80 mm[Hg] or above instead of above 80 mm[Hg]",
            "neonate below 80 mm[Hg] instead of above 80 mm[Hg]",
            "neonate above 79 mm[Hg] instead of above 80 mm[Hg]",
            "neonate above 81 mm[Hg] instead of above 80 mm[Hg]",
            "neonate not judged",
            "severity moderate instead of high",
            "where intracranial-pressure-monitored, left out",
            "withheld by nothing",
            "stands on nothing",
            "judged only with an age",
        });

    [Fact]
    public void A_band_that_is_not_judged_is_judged_by_the_nearest_limit()
    {
        var changes = ChangesTo("heart-rate-event-with-suction");

        Assert.Contains("heart-rate-lowest, infant below 100 /min instead of not judged", changes, StringComparer.Ordinal);
        Assert.Contains("heart-rate-lowest, child below 50 /min instead of not judged", changes, StringComparer.Ordinal);
    }

    [Fact]
    public void A_wait_is_changed_only_where_absence_is_the_breach()
    {
        Assert.Contains("waits 119 min instead of 120 min", ChangesTo("no-indication-charted"), StringComparer.Ordinal);
        Assert.Contains("waits 121 min instead of 120 min", ChangesTo("no-indication-charted"), StringComparer.Ordinal);
        Assert.DoesNotContain(ChangesTo("pass-too-long"), what => what.StartsWith("waits", StringComparison.Ordinal));
    }

    [Fact]
    public void A_wait_of_nothing_is_made_no_shorter()
    {
        var set = ShippedRuleSets.Load("strict-ranges").RuleSet!;
        var impatient = set with { Rules = [set.Find("no-indication-charted")! with { Waits = TimeSpan.Zero }] };

        var waits = RuleMutants.Of(impatient).Where(mutant => mutant.What.StartsWith("waits", StringComparison.Ordinal));

        Assert.Equal("waits 1 min instead of 0 min", Assert.Single(waits).What);
    }

    [Fact]
    public void Time_that_only_runs_is_moved_and_not_turned_over() =>
        Assert.Equal(
            ["above 11 h instead of above 12 h", "above 13 h instead of above 12 h"],
            ChangesTo("vacuum-reading-stale").Where(what => what.Contains("instead of above", StringComparison.Ordinal)), StringComparer.Ordinal);

    [Fact]
    public void Time_that_a_measure_compares_itself_is_turned_over() =>
        Assert.Contains("adult 10 min or above instead of above 10 min", ChangesTo("oxygen-not-returned"), StringComparer.Ordinal);

    [Theory]
    [InlineData("vacuum-above-ceiling", "the episode", "the airway", "nothing")]
    [InlineData("catheter-too-wide", "the episode", "the order", "nothing")]
    [InlineData("tube-diameter-unknown", "nothing")]
    [InlineData("vacuum-reading-stale", "nothing")]
    [InlineData("pass-too-long")]
    public void What_a_check_stands_on_is_changed_where_it_has_another_line_to_stand_on(string check, params string[] others) =>
        Assert.Equal(
            others.Order(StringComparer.Ordinal),
            ChangesTo(check).Where(what => what.StartsWith("stands on", StringComparison.Ordinal)).Select(what => what["stands on ".Length..].Split(" instead")[0]).Order(StringComparer.Ordinal),
            StringComparer.Ordinal);

    [Theory]
    [InlineData("wall-supply-unsurveyed")]
    [InlineData("closed-catheter-change-overdue")]
    public void A_check_whose_limit_the_site_sets_is_not_changed(string check) => Assert.Empty(ChangesTo(check));

    [Fact]
    public void Only_the_measures_without_a_value_of_their_own_only_run() =>
        Assert.Equal(
            ["time-since-calibration", "time-since-closed-catheter-first-used", "time-since-tracheal-tube-assessed", "time-since-tracheostomy-assessed", "time-since-vacuum-read", "time-since-wall-supply-read"],
            MeasureCatalog.All.Where(measure => measure.OnlyRuns).Select(measure => measure.Id).Order(StringComparer.Ordinal), StringComparer.Ordinal);

    [Fact]
    public void Each_change_is_made_to_one_check_alone()
    {
        var set = ShippedRuleSets.Load("strict-ranges").RuleSet!;

        Assert.All(RuleMutants.Of(set), mutant =>
        {
            var changed = mutant.Set.Rules.Zip(set.Rules).Where(pair => !ReferenceEquals(pair.First, pair.Second)).Select(pair => pair.First.Id);
            Assert.Equal(mutant.Check, Assert.Single(changed));
        });
    }
}
