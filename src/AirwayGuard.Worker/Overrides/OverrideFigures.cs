using System.Collections.Immutable;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Worker.Overrides;

/// <summary>Counts what people did with cards. A card with several reports counts by the latest.</summary>
public static class OverrideFigures
{
    /// <param name="since">As <paramref name="cards"/> were asked for; told, not looked at.</param>
    /// <param name="until">Likewise.</param>
    /// <param name="withComments">Without it the report holds no comment.</param>
    public static OverrideReport Of(IReadOnlyCollection<CardHistory> cards, DateTimeOffset? since, DateTimeOffset? until, bool withComments)
    {
        var judged = cards.Where(static card => card.Check.Length > 0).ToList();
        return new OverrideReport(
            since,
            until,
            [.. judged.GroupBy(static card => card.Check, StringComparer.Ordinal).OrderBy(static check => check.Key, StringComparer.Ordinal).Select(static check => FiguresOf(check.Key, [.. check]))],
            CountsOf(judged),
            CountsOf([.. cards.Where(static card => card.Check.Length == 0)]),
            [.. judged.CountBy(static card => card.Hook, StringComparer.Ordinal).OrderBy(static hook => hook.Key, StringComparer.Ordinal).Select(static hook => new HookCount(hook.Key, hook.Value))],
            withComments ? CommentsOf(cards) : null);
    }

    private static CheckFigures FiguresOf(string check, IReadOnlyCollection<CardHistory> cards)
    {
        var overridden = cards.Select(Latest).OfType<CardFeedback>().Where(static report => report.Outcome == CardOutcome.Overridden);
        return new CheckFigures(
            check,
            CountsOf(cards),
            [
                .. overridden.Select(GivenReason.Of).GroupBy(static reason => reason.Full, StringComparer.Ordinal).Select(static same => new ReasonCount(same.First(), same.Count()))
                    .OrderByDescending(static one => one.Count).ThenBy(static one => one.Reason.Full, StringComparer.Ordinal),
            ]);
    }

    private static CardCounts CountsOf(IReadOnlyCollection<CardHistory> cards)
    {
        var outcomes = cards.Select(Latest).OfType<CardFeedback>().Select(static report => report.Outcome).ToList();
        return new CardCounts(cards.Count, outcomes.Count(static one => one == CardOutcome.Accepted), outcomes.Count(static one => one == CardOutcome.Overridden));
    }

    private static ImmutableArray<CommentedReport> CommentsOf(IEnumerable<CardHistory> cards) =>
    [
        .. cards.SelectMany(static card => card.Feedback.Where(static report => report.Comment.Length > 0)
                .Select(report => new CommentedReport(card.Card, card.Check, report.At, report.Outcome, GivenReason.Of(report), report.Comment, !ReferenceEquals(report, Latest(card)))))
            .OrderBy(static one => one.Check.Length == 0).ThenBy(static one => one.Check, StringComparer.Ordinal)
            .ThenBy(static one => one.At).ThenBy(static one => one.Card).ThenBy(static one => one.Outcome),
    ];

    // Reported as accepted and as overridden at one instant, it was not simply accepted.
    private static CardFeedback? Latest(CardHistory card) => card.Feedback.OrderBy(static report => report.SaidAt).ThenBy(static report => report.At).ThenBy(static report => report.Outcome).LastOrDefault();
}
