using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Rules.Showing;

namespace AirwayGuard.Rules.Comparing;

/// <summary>A check that one of the sets lacks, with each of its limits and what people read of it.</summary>
internal static class WholeCheck
{
    private const string Absent = "no such check";

    public static CheckComparison Added(Side side) => Of(side, Fate.Added, Direction.Stricter);

    public static CheckComparison Removed(Side side) => Of(side, Fate.Removed, Direction.Looser);

    private static CheckComparison Of(Side side, Fate fate, Direction direction)
    {
        var rule = side.Rule;
        ImmutableArray<Change> changes =
        [
            .. LimitChanges.Subjects(rule).SelectMany(one => Cells(Aspects.Limit, one.Subject, fate, band => LimitChanges.CellOf(one.Limits, one.Measure, band, side))),
            .. rule.Tighten.SelectMany(one => Cells(
                Aspects.Circumstance, CircumstanceChanges.Subject(CheckNames.Of(rule), one), fate, band => CircumstanceChanges.CellOf(one, side, band))),
            .. rule.Allow.Select(one => one.Reason).Distinct(StringComparer.Ordinal).SelectMany(reason => Cells(
                Aspects.Allowance, AllowanceChanges.Subject(CheckNames.Of(rule), reason), fate, band => AllowanceChanges.CellOf(side, reason, band))),
            .. Words(rule, fate),
        ];
        // A check that says nothing outside, or judges nobody, makes nothing stricter by being there.
        var speaks = rule.Mode == Mode.Live && changes.Any(change => change.Aspect == Aspects.Limit);
        return new CheckComparison(rule.Id, CheckNames.Of(rule), fate, speaks ? direction : Direction.Neither, changes);
    }

    /// <summary>The limits themselves are told; ages that are not judged by it are as they would be without it.</summary>
    private static IEnumerable<Change> Cells(string aspect, string subject, Fate fate, Func<AgeBand, Cell> cell)
    {
        var none = Cell.Open(Absent);
        var changes = fate == Fate.Added
            ? CellChanges.Of(aspect, subject, _ => none, Known(cell, none))
            : CellChanges.Of(aspect, subject, Known(cell, none), _ => none);
        return changes.Select(change => change with
        {
            Sentence = $"{CellChanges.WithAges(subject, change.Bands)}: {(fate == Fate.Added ? change.To : change.From)}",
            Direction = Direction.Neither,
        });
    }

    private static IEnumerable<Change> Words(Rule rule, Fate fate)
    {
        var name = ClinicalWords.Capital(CheckNames.Of(rule));
        var severities = string.Join("; ", rule.Criteria.Select(SeverityChanges.InWords).Distinct(StringComparer.Ordinal));
        (string Aspect, string What, string Words)[] told =
        [
            (Aspects.Severity, "severity of a breach", severities),
            (Aspects.Mode, "mode", ConditionChanges.Mode(rule)),
            (Aspects.Say, "what it says", rule.Say),
            (Aspects.Do, "what the policy asks", rule.Do),
        ];
        return told.Select(one => new Change(
            one.Aspect, [], $"{name}, {one.What}: {one.Words}", Direction.Neither, fate == Fate.Added ? Absent : one.Words, fate == Fate.Added ? one.Words : Absent));
    }

    private static Func<AgeBand, Cell> Known(Func<AgeBand, Cell> cell, Cell none) => band => cell(band) is { Ground: not null } known ? known : none;
}
