using System.Security.Cryptography;
using System.Text;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Rules.Tests;

public sealed class RuleSetReaderTests
{
    private static RuleSet Read(string document)
    {
        var reading = Documents.Read(document);
        Assert.Empty(reading.Faults);
        return reading.RuleSet!;
    }

    private static Rule First(string document) => Read(document).Rules[0];

    [Fact]
    public void The_head_of_the_document_becomes_the_set_with_the_hash_of_its_bytes()
    {
        var reading = Documents.Read(Documents.Valid);

        Assert.Equal("Ward 7", reading.Title);
        Assert.Equal(("ward-7", "2026.1"), (reading.RuleSet!.Name, reading.RuleSet.Version));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Documents.Valid))), reading.RuleSet.Sha256);
        Assert.Equal([new Source("local", "Ward policy 7.3, invented"), new Source("memory", "A text recalled, invented")], reading.RuleSet.Sources);
        Assert.Equal(["vacuum-above-ceiling", "mode-check"], reading.RuleSet.Rules.Select(rule => rule.Id), StringComparer.Ordinal);
    }

    [Fact]
    public void Each_band_keeps_its_own_limit_unit_source_and_status()
    {
        var criterion = Assert.Single(First(Documents.Valid).Criteria);

        Assert.Same(VacuumPressure.Measure, criterion.Measure);
        Assert.Equal(new Limit(Comparison.Above, 80m, 80m, Unit.MmHg, "", "local", SourceStatus.Cited), criterion.Limits.For(AgeBand.Neonate));
        Assert.Equal(new Limit(Comparison.Above, 13.5m, 13.5m, Unit.Kilopascal, "", "local", SourceStatus.Cited), criterion.Limits.For(AgeBand.Infant));
        Assert.Null(criterion.Limits.For(AgeBand.Child));
        Assert.Equal(new Limit(Comparison.Above, 150m, 150m, Unit.MmHg, "", "memory", SourceStatus.FromMemory), criterion.Limits.For(AgeBand.Adult));
    }

    [Fact]
    public void All_stands_for_the_four_bands()
    {
        var limits = Read(Documents.Valid).Rules[1].Criteria[0].Limits;

        Assert.All(
            new[] { AgeBand.Neonate, AgeBand.Infant, AgeBand.Child, AgeBand.Adult },
            band => Assert.Equal(new Limit(Comparison.Is, 0m, 0m, Unit.None, "full-line", "local", SourceStatus.CommonPractice), limits.For(band)));
    }

    [Fact]
    public void A_tightening_without_bands_holds_for_the_bands_that_are_judged()
    {
        var circumstance = Assert.Single(First(Documents.Valid).Tighten);

        var guard = Assert.Single(circumstance.When);
        Assert.Same(IntracranialPressureMonitored.Measure, guard.Measure);
        Assert.Equal((Comparison.Is, "yes"), (guard.Limit.Comparison, guard.Limit.Code));
        Assert.Equal(120m, circumstance.Limits.For(AgeBand.Adult)!.Low);
        Assert.Null(circumstance.Limits.For(AgeBand.Child));
    }

    [Fact]
    public void An_allowance_holds_for_the_bands_it_names_only()
    {
        var allowance = Assert.Single(First(Documents.Valid).Allow);

        Assert.Equal("thick-secretions", allowance.Reason);
        Assert.Equal(new Limit(Comparison.Above, 200m, 200m, Unit.MmHg, "", "local", SourceStatus.Cited), allowance.Limits!.For(AgeBand.Adult));
        Assert.Null(allowance.Limits.For(AgeBand.Neonate));
    }

    [Fact]
    public void An_allowance_without_a_limit_allows_altogether()
    {
        var rule = First(Documents.With(", bands: [adult], limit: \"200 mm[Hg]\"", ", bands: all"));

        Assert.Equal(new Allowance("thick-secretions", null, rule.Allow[0].Source, rule.Allow[0].Status), Assert.Single(rule.Allow));
    }

    [Fact]
    public void The_remaining_keys_become_what_they_say()
    {
        var rule = First(Documents.Valid);

        Assert.Equal([SubjectKind.Setting], rule.Judges);
        Assert.Equal(("mode-check", Standing.Regulator, Mode.Silent), (rule.WithheldBy, rule.Stands, rule.Mode));
        Assert.Equal((TimeSpan.FromHours(3), TimeSpan.FromMinutes(3)), (rule.Waits, rule.Holds));
        Assert.Equal("Vacuum {value} is above {limit} for {band}.", rule.Say);
        Assert.Equal("The policy asks for at most {limit}.", rule.Do);
        Assert.Equal("a lower reading", rule.ClearedBy);
    }

    [Fact]
    public void A_title_is_kept_on_one_line_and_may_be_left_out()
    {
        Assert.Equal("vacuum at the wall", First(Documents.With("    judges: [setting]\n    measure: vacuum-p", "    title: \"vacuum \\n at  the wall\"\n    judges: [setting]\n    measure: vacuum-p")).Title);
        Assert.Equal("", First(Documents.Valid).Title);
    }

    [Fact]
    public void What_is_left_out_has_the_cautious_default()
    {
        var rule = Read(Documents.Valid).Rules[1];

        Assert.Equal((Standing.Once, Mode.Silent, "", false), (rule.Stands, rule.Mode, rule.WithheldBy, rule.NeedsAge));
        Assert.Equal((TimeSpan.FromHours(2), TimeSpan.Zero), (rule.Waits, rule.Holds));
        Assert.Empty(rule.Tighten);
        Assert.Empty(rule.Allow);
        Assert.Empty(rule.Unless);
    }

    [Theory]
    [InlineData("mode: live", Mode.Live)]
    [InlineData("mode: silent", Mode.Silent)]
    [InlineData("mode: { default: live }", Mode.Live)]
    public void A_mode_is_a_word_or_a_default(string written, Mode expected) =>
        Assert.Equal(expected, First(Documents.With("mode: { default: silent }", written)).Mode);

    [Theory]
    [InlineData("waits: 0 min", 0)]
    [InlineData("waits: 48 h", 2880)]
    [InlineData("waits: 90 min", 90)]
    public void A_wait_may_lie_anywhere_from_nothing_to_two_days(string written, int minutes) =>
        Assert.Equal(TimeSpan.FromMinutes(minutes), First(Documents.With("waits: 3 h", written)).Waits);

    [Fact]
    public void Severity_steps_have_the_lowest_word_as_base_and_the_higher_ones_above_their_marks()
    {
        var severity = First(Documents.With("    severity: high\n    withheldBy", "    severity: { high: 200, low: \"80 mm[Hg]\", moderate: 180 }\n    withheldBy")
            .Replace("\"13.5 kPa\"", "\"100 mm[Hg]\"", StringComparison.Ordinal)).Criteria[0].Severity;

        Assert.Equal(Severity.Low, severity.Base);
        Assert.Equal([new SeverityStep(Severity.Moderate, 180m), new SeverityStep(Severity.High, 200m)], severity.Steps);
    }

    [Fact]
    public void Criteria_under_anyOf_keep_their_order_and_may_share_the_severity_of_the_rule()
    {
        var rule = Read(
            """
            schema: 1
            name: two
            version: 1
            title: Two criteria
            sources: { local: Invented }
            rules:
            - id: both
              judges: session
              severity: low
              anyOf:
              - { measure: frank-blood, atOrAbove: { all: { limit: 1, source: local, status: cited } }, severity: high }
              - measure: blood-stained-sessions
                outside: { all: { limit: "0 to 1 {count}", source: local, status: disputed } }
              say: Blood.
              do: Policy.
              clears: nothing
            """).Rules[0];

        Assert.Equal(["frank-blood", "blood-stained-sessions"], rule.Criteria.Select(criterion => criterion.Measure.Id), StringComparer.Ordinal);
        Assert.Equal([Severity.High, Severity.Low], rule.Criteria.Select(criterion => criterion.Severity.Base));
        Assert.Equal(new Limit(Comparison.AtOrAbove, 1m, 1m, Unit.Count, "", "local", SourceStatus.Cited), rule.Criteria[0].Limits.For(AgeBand.Child));
        Assert.Equal(new Limit(Comparison.Outside, 0m, 1m, Unit.Count, "", "local", SourceStatus.Disputed), rule.Criteria[1].Limits.For(AgeBand.Child));
    }

    [Fact]
    public void A_guard_may_compare_a_number_or_exclude_a_code()
    {
        var rule = First(Documents.With(
            "    stands: regulator", "    stands: regulator\n    unless: { vacuum-pressure: { atOrBelow: \"5 kPa\" }, regulator-mode: { isNot: regulated } }"));

        Assert.Equal(
            [(VacuumPressure.Measure, Comparison.AtOrBelow, 5m, Unit.Kilopascal, ""), (RegulatorMode.Measure, Comparison.IsNot, 0m, Unit.None, "regulated")],
            rule.Unless.Select(guard => (guard.Measure, guard.Limit.Comparison, guard.Limit.Low, guard.Limit.Unit, guard.Limit.Code)));
    }

    [Theory]
    [InlineData("20 kPa", true)] // 150.01 mm[Hg] is looser than 150
    [InlineData("19.9 kPa", false)]
    public void Limits_in_two_units_are_held_against_each_other_exactly(string tightened, bool changesNothing)
    {
        var document = Documents.With("\"120 mm[Hg]\"", $"\"{tightened}\"").Replace("\"13.5 kPa\"", "\"1 kPa\"", StringComparison.Ordinal);

        Assert.Equal(changesNothing, Documents.Read(document).Faults.Any(fault => fault.Code.Id == "AG3401"));
    }

    [Fact]
    public void An_inclusive_limit_of_the_same_number_is_stricter()
    {
        var document = Documents.With("above: { limit: \"120 mm[Hg]\"", "atOrAbove: { limit: \"150 mm[Hg]\"");

        Assert.Equal(Comparison.AtOrAbove, First(document).Tighten[0].Limits.For(AgeBand.Adult)!.Comparison);
    }
}
