using System.Text;

namespace AirwayGuard.Rules.Tests.Comparing;

/// <summary>Checks of several criteria, with a shipped set of which one passage is changed.</summary>
public sealed class CriteriaComparedTests
{
    private static readonly string Shipped = Encoding.UTF8.GetString(ShippedRuleSets.Bytes("strict-ranges").Span);

    [Theory]
    [InlineData("      - measure: rhythm-reaction\n        is:\n          all: { limit: tachycardia, source: common-practice, status: common-practice }\n        severity: high\n", "",
        "Heart rate event with suction (rhythm reaction), all ages: other than tachycardia becomes not judged (looser)")]
    [InlineData("limit: 150 /min", "limit: 160 /min", "Adult heart rate event with suction (heart rate highest): 150 per minute or less becomes 160 per minute or less (looser)")]
    [InlineData("limit: 5 %", "limit: 1 %", "Desaturation with suction (SpO2 fall), all ages: below 5 percentage points becomes below 1 percentage point (stricter)")]
    [InlineData("{ limit: 80 %,", "{ limit: 85 %,", "Neonate desaturation with suction (SpO2 nadir): 80 % or more becomes 85 % or more (stricter)")]
    [InlineData("limit: \"10 cm[H2O]\"", "limit: \"12.5 cm[H2O]\"", "Open suction at high support (PEEP at open suction), all ages: below 10 cmH2O becomes below 12.5 cmH2O (looser)")]
    [InlineData("limit: \"0.60\"", "limit: \"0.55\"", "Open suction at high support (baseline oxygen at open suction), all ages: below 60 % becomes below 55 % (stricter)")]
    [InlineData("neonate: { limit: \"0.10\"", "neonate: { limit: \"0.05\"", "Neonate rise of inspired oxygen: 10 percentage points or less becomes 5 percentage points or less (stricter)")]
    [InlineData("all: { limit: \"3 {count}\"", "all: { limit: 4", "Passes in one session, all ages: 3 or fewer becomes 4 or fewer (looser)", "Passes in one session where intracranial pressure is monitored, all ages: 2 or fewer stays; the stricter of it and the limit for the age holds")]
    [InlineData("all: { limit: \"2 {count}\", source: common", "all: { limit: \"4 {count}\", source: common", "Blood-stained secretions (blood stained sessions), all ages: fewer than 2 becomes fewer than 4 (looser)")]
    [InlineData("limit: 12 mo,", "limit: 1 mo,", "Regulator calibration interval, all ages: 12 months or less becomes 1 month or less (stricter)")]
    [InlineData("child: { limit: \"20 to 30 cm[H2O]\"", "child: { limit: \"20 to 25 cm[H2O]\"", "Child cuff pressure: 20 to 30 cmH2O becomes 20 to 25 cmH2O (stricter)")]
    [InlineData("child: { limit: \"20 to 30 cm[H2O]\"", "child: { limit: \"15 to 25 cm[H2O]\"", "Child cuff pressure: 20 to 30 cmH2O becomes 15 to 25 cmH2O (neither)")]
    [InlineData("severity: { moderate: 10 s, high: 20 s }", "severity: { moderate: 10 s, high: 30 s }", "Pass duration, severity of a breach: moderate, high above 20 s becomes moderate, high above 30 s (looser)")]
    [InlineData("severity: { moderate: 10 s, high: 20 s }", "severity: { low: 0 s, high: 15 s }", "Pass duration, severity of a breach: moderate, high above 20 s becomes low, high above 15 s (neither)")]
    [InlineData("severity: { moderate: 0.50, high: 0.70 }", "severity: { moderate: 0.50, high: 0.60 }", "Catheter-to-tube ratio, severity of a breach: moderate, high above 70 % becomes moderate, high above 60 % (stricter)")]
    [InlineData("above:\n      all: site-sets\n    severity: low\n    stands: outlet", "above:\n      all: { limit: 30 d, source: nfpa-99, status: from-memory }\n    severity: low\n    stands: outlet", "Wall supply survey interval, all ages: not judged becomes 30 days or less (stricter)")]
    [InlineData("unless: { hyperoxygenation-contraindicated: yes }", "unless: { hyperoxygenation-contraindicated: yes, intracranial-pressure-monitored: yes }",
        "Pre-oxygenation, not judged where: hyperoxygenation is charted as contraindicated becomes hyperoxygenation is charted as contraindicated and intracranial pressure is monitored (stricter)")]
    [InlineData("adult: { source: aarc-2022, status: cited }\n    unless", "adult: not-judged\n    unless", "Adult pre-oxygenation: must be charted becomes not judged (looser)")]
    [InlineData("judges: [pass, order]\n    measure: saline-dose", "judges: [pass]\n    measure: saline-dose", "Saline dose, what is judged: pass and order becomes pass (looser)")]
    public void A_change_is_told_of_its_criterion_in_bedside_units(string passage, string changed, params string[] expected)
    {
        Assert.Contains(passage, Shipped, StringComparison.Ordinal);
        var at = Shipped.IndexOf(passage, StringComparison.Ordinal);

        var lines = Compared.Lines(Shipped, string.Concat(Shipped.AsSpan(0, at), changed, Shipped.AsSpan(at + passage.Length)));

        Assert.Equal(expected, Compared.Sentences(lines), StringComparer.Ordinal);
    }
}
