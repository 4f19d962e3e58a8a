using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>What becomes of the limits for the ages, criterion by criterion.</summary>
internal static class LimitChanges
{
    private const string NotJudged = "not judged";

    public static IEnumerable<Change> Of(Side from, Side to)
    {
        var name = CheckNames.Of(to.Rule);
        var several = from.Rule.Criteria.Length > 1 || to.Rule.Criteria.Length > 1;
        foreach (var (one, two) in CriterionPairs.Of(from.Rule.Criteria, to.Rule.Criteria))
        {
            if (one is not null && two is not null && !ReferenceEquals(one.Measure, two.Measure))
            {
                var (was, now) = (ClinicalWords.MeasureName(one.Measure), ClinicalWords.MeasureName(two.Measure));
                yield return new Change(
                    Aspects.Measure, [], $"{ClinicalWords.Capital(name)}, what is measured: {was} becomes {now} ({two.Measure.Meaning})", Direction.Neither, was, now);
            }

            var subject = several ? Subject(name, (two ?? one)!) : name;
            foreach (var change in CellChanges.Of(Aspects.Limit, subject, band => CellOf(one, band, from), band => CellOf(two, band, to)))
            {
                yield return change;
            }

            foreach (var change in SeverityChanges.Of(subject, one, two))
            {
                yield return change;
            }
        }
    }

    /// <summary>The check's limits alone, as what the other set lacks.</summary>
    public static IEnumerable<(string Subject, Measure Measure, BandLimits Limits)> Subjects(Rule rule)
    {
        var name = CheckNames.Of(rule);
        return rule.Criteria.Select(criterion => (rule.Criteria.Length > 1 ? Subject(name, criterion) : name, criterion.Measure, criterion.Limits));
    }

    public static Cell CellOf(BandLimits? limits, Measure measure, AgeBand band, Side side) =>
        limits?.For(band) is { } limit ? Cell.Of(limit, measure, side) : Cell.Open(NotJudged);

    private static Cell CellOf(Criterion? criterion, AgeBand band, Side side) =>
        criterion is null ? Cell.Open(NotJudged) : CellOf(criterion.Limits, criterion.Measure, band, side);

    private static string Subject(string name, Criterion criterion) => $"{name} ({ClinicalWords.MeasureName(criterion.Measure)})";
}
