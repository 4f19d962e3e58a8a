using System.Security.Cryptography;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Tests.Shipped;

namespace AirwayGuard.Rules.Tests;

/// <summary>Both shipped sets against the table of checks, row by row: check, band, what breaches, source and its status.</summary>
public sealed class ShippedRuleSetsTests
{
    private const string Strict = "strict-ranges";
    private const string Guideline = "guideline-2022";

    private static readonly LimitRow[] LimitRows =
        [.. FirstTable.Limits, .. GroundTable.Limits, .. VacuumTable.Limits, .. CatheterTable.Limits, .. OxygenTable.Limits, .. OutcomeTable.Limits];

    private static readonly CheckRow[] CheckRows =
        [.. FirstTable.Checks, .. GroundTable.Checks, .. VacuumTable.Checks, .. CatheterTable.Checks, .. OxygenTable.Checks, .. OutcomeTable.Checks];

    public static TheoryData<string, int> Limits => [.. LimitRows.Select((row, index) => ($"{row.Check} {row.Set} {row.Criterion}", index))];

    public static TheoryData<string> Checks => [.. CheckRows.Select(row => row.Id)];

    private static readonly AgeBand[] Bands = [AgeBand.Neonate, AgeBand.Infant, AgeBand.Child, AgeBand.Adult];

    private static RuleSet Load(string name)
    {
        var reading = ShippedRuleSets.Load(name);
        Assert.Empty(reading.Faults);
        return reading.RuleSet!;
    }

    private static Rule Check(string set, string id) => Load(set).Find(id) ?? throw new InvalidOperationException($"{set} lacks {id}");

    private static string Number(decimal number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static string Print(Limit? limit) => limit is null ? "" : $"{HeldFigure.Print(limit)}|{limit.Source}|{limit.Status}";

    private static string Print(SeveritySteps severity) =>
        string.Join(',', severity.Steps.Select(step => $"{step.Severity}>{Number(step.Above)}").Prepend(severity.Base.ToString()));

    [Theory]
    [InlineData(Strict)]
    [InlineData(Guideline)]
    public void A_shipped_set_is_clean_and_holds_the_tables_checks(string name)
    {
        var set = Load(name);

        Assert.Equal(name, set.Name);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(ShippedRuleSets.Bytes(name).Span)), set.Sha256);
        Assert.Equal(CheckRows.Select(row => row.Id).Order(StringComparer.Ordinal), set.Rules.Select(rule => rule.Id).Order(StringComparer.Ordinal));
        Assert.All(set.Rules, rule => Assert.Equal((Rule.DefaultWait, TimeSpan.Zero), (rule.Waits, rule.Holds)));
    }

    [Theory]
    [MemberData(nameof(Limits))]
    public void Each_limit_is_the_tables_with_its_source_and_status(string which, int index)
    {
        var row = LimitRows[index];
        Assert.StartsWith(row.Check, which, StringComparison.Ordinal);
        foreach (var name in row.Set.Length > 0 ? [row.Set] : (string[])[Strict, Guideline])
        {
            var limits = Check(name, row.Check).Criteria[row.Criterion].Limits;

            Assert.Equal((string[])[row.Neonate, row.Infant, row.Child, row.Adult], Bands.Select(band => Print(limits.For(band))).ToArray());
        }
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public void Each_check_judges_measures_and_stands_as_the_table_says(string id)
    {
        var row = CheckRows.Single(one => one.Id == id);
        foreach (var name in ShippedRuleSets.Names)
        {
            var rule = Check(name, id);

            Assert.Equal(row.Judges, string.Join(',', rule.Judges));
            Assert.Equal(row.Measures, string.Join(',', rule.Criteria.Select(criterion => criterion.Measure.Id)));
            Assert.Equal(row.Severity, string.Join(';', rule.Criteria.Select(criterion => Print(criterion.Severity))));
            Assert.Equal((row.Stands, row.WithheldBy, row.NeedsAge), (rule.Stands, rule.WithheldBy, rule.NeedsAge));
            Assert.Equal(row.IsSilent ? Mode.Silent : Mode.Live, rule.Mode);
            Assert.Equal(row.Tighten, rule.Tighten.Length);
            Assert.Equal(row.Allow, string.Join(',', rule.Allow.Select(allowance => allowance.Reason)));
            Assert.Equal(row.Unless, string.Join(',', rule.Unless.Select(guard => $"{guard.Measure.Id}={guard.Limit.Code}")));
        }
    }

    [Fact]
    public void Every_limit_of_every_check_stands_in_the_table()
    {
        foreach (var name in ShippedRuleSets.Names)
        {
            Assert.All(Load(name).Rules, rule => Assert.All(
                Enumerable.Range(0, rule.Criteria.Length),
                criterion => Assert.Single(LimitRows, row => row.Check == rule.Id && row.Criterion == criterion && (row.Set.Length == 0 || row.Set == name))));
        }
    }

    /// <summary>Recommendations for head-injured adults, J Neurosci Nurs 1993: below 120 mmHg, 10 s, 1 to 2 passes.</summary>
    [Theory]
    [InlineData("vacuum-above-ceiling", "Above 120 mm[Hg]|jnn-1993|Cited")]
    [InlineData("ordered-vacuum-above-ceiling", "Above 120 mm[Hg]|jnn-1993|Cited")]
    [InlineData("pass-too-long", "Above 10 s|jnn-1993|Cited")]
    [InlineData("too-many-passes", "Above 2 {count}|jnn-1993|Cited")]
    public void Monitored_intracranial_pressure_tightens_in_every_band(string check, string limit)
    {
        foreach (var name in ShippedRuleSets.Names)
        {
            var circumstance = Assert.Single(Check(name, check).Tighten);
            var guard = Assert.Single(circumstance.When);

            Assert.Equal(("intracranial-pressure-monitored", Comparison.Is, "yes"), (guard.Measure.Id, guard.Limit.Comparison, guard.Limit.Code));
            Assert.All(Bands, band => Assert.Equal(limit, Print(circumstance.Limits.For(band))));
        }
    }

    /// <summary>Every published ceiling of the evidence lies between the two sets or on one of them.</summary>
    [Theory]
    [InlineData(AgeBand.Neonate, 80)] // Ireton 2007; AARC nasotracheal 2004; Iowa; NTSP paediatric
    [InlineData(AgeBand.Neonate, 100)] // AARC 2010; Auckland newborn guideline 2015
    [InlineData(AgeBand.Infant, 100)] // AARC nasotracheal 2004; NTSP paediatric
    [InlineData(AgeBand.Child, 120)] // AARC 2022; AARC nasotracheal 2004
    [InlineData(AgeBand.Adult, 150)] // NSW ACI 2014; AARC 2010
    [InlineData(AgeBand.Adult, 200)] // AARC 2022
    public void A_published_ceiling_is_no_stricter_than_one_set_and_no_looser_than_the_other(AgeBand band, int published)
    {
        Assert.True(Check(Strict, "vacuum-above-ceiling").Criteria[0].Limits.For(band)!.Low <= published);
        Assert.True(Check(Guideline, "vacuum-above-ceiling").Criteria[0].Limits.For(band)!.Low >= published);
    }

    [Fact]
    public void Every_source_is_used_and_named()
    {
        foreach (var set in ShippedRuleSets.Names.Select(Load))
        {
            var used = set.Rules
                .SelectMany(rule => rule.Criteria.Select(criterion => criterion.Limits).Concat(rule.Tighten.Select(circumstance => circumstance.Limits)))
                .SelectMany(limits => Bands.Select(limits.For)).OfType<Limit>().Select(limit => limit.Source)
                .Concat(set.Rules.SelectMany(rule => rule.Allow).Select(allowance => allowance.Source));

            Assert.Equal(
                set.Sources.Select(source => source.Id).Order(StringComparer.Ordinal),
                used.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        }
    }

    [Fact]
    public void What_a_check_tells_defers_to_local_policy_and_orders_nothing()
    {
        string[] commands = ["you must", "should", "must", "stop suction", "give oxygen", "reduce", "increase", "immediately", "treat", "diagnos"];

        foreach (var rule in ShippedRuleSets.Names.SelectMany(name => Load(name).Rules))
        {
            Assert.StartsWith("The policy asks", rule.Do, StringComparison.Ordinal);
            Assert.All(commands, word => Assert.DoesNotContain(word, rule.Say + " " + rule.Do, StringComparison.OrdinalIgnoreCase));
            Assert.True(
                rule.Do.Contains("local policy decides", StringComparison.Ordinal) || rule.Id == "vacuum-unit-doubtful",
                $"{rule.Id} does not defer to local policy");
        }
    }

    [Fact]
    public void Another_name_is_refused()
    {
        Assert.Equal(Strict, ShippedRuleSets.Default);
        Assert.Throws<ArgumentException>("name", () => ShippedRuleSets.Load("lenient"));
    }
}
