using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Rules.Reading;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>Whether a breach is told more or less gravely.</summary>
internal static class SeverityChanges
{
    public static IEnumerable<Change> Of(string subject, Criterion? from, Criterion? to)
    {
        if (from is null || to is null)
        {
            yield break;
        }

        var (was, now) = (InWords(from), InWords(to));
        if (was != now)
        {
            yield return new Change(
                Aspects.Severity, [], $"{ClinicalWords.Capital(subject)}, severity of a breach: {was} becomes {now}", Way(from, to), was, now);
        }
    }

    /// <summary><c>moderate, high above 20 s</c>.</summary>
    public static string InWords(Criterion criterion)
    {
        var unit = UnitOf(criterion);
        var steps = criterion.Severity.Steps.Select(
            step => $"{Words.Of(Words.Severities, step.Severity)} above {ClinicalWords.Amount(step.Above, unit, criterion.Measure)}");
        return string.Join(", ", steps.Prepend(Words.Of(Words.Severities, criterion.Severity.Base)));
    }

    private static Direction Way(Criterion from, Criterion to)
    {
        var hasSteps = from.Severity.Steps.Length + to.Severity.Steps.Length > 0;
        if (hasSteps && (!ReferenceEquals(from.Measure, to.Measure) || UnitOf(from) != UnitOf(to)))
        {
            return Direction.Neither;
        }

        var by = Words.Severities.Select(row => Mark(to.Severity, row.Value).CompareTo(Mark(from.Severity, row.Value))).ToList();
        return by.TrueForAll(one => one <= 0) ? Direction.Stricter : by.TrueForAll(one => one >= 0) ? Direction.Looser : Direction.Neither;
    }

    /// <summary>From where on a breach has at least this severity: everywhere, above a mark, or nowhere.</summary>
    private static decimal Mark(SeveritySteps severity, Severity least) =>
        severity.Base >= least ? decimal.MinValue
        : severity.Steps.Where(step => step.Severity >= least).Select(step => step.Above).DefaultIfEmpty(decimal.MaxValue).Min();

    private static Unit UnitOf(Criterion criterion) => RuleLimits.OfBands(criterion.Limits).Select(limit => limit.Unit).FirstOrDefault();
}
