using System.Collections.Immutable;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;
using AirwayGuard.Storage.Writing;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads the cards that were given, with what was reported on each.</summary>
internal static class CardReader
{
    private const int FeedbackTimeColumn = 6;

    public static IReadOnlyList<CardHistory> Between(Database database, DateTimeOffset from, DateTimeOffset to)
    {
        using var rows = database.Prepared(
            "SELECT c.card, c.service, c.hook, c.check_id, c.severity, c.at, f.at, f.outcome, f.reason_system, f.reason_code, f.reason_display, f.comment, f.suggestions, f.kept_at "
            + "FROM cards c LEFT JOIN card_feedback f ON f.card = c.card WHERE c.at >= ?1 AND c.at < ?2 ORDER BY c.at, c.card, f.at, f.outcome");
        rows.Bind(1, from.UtcTicks).Bind(2, to.UtcTicks);
        var cards = new List<CardHistory>();
        var feedback = ImmutableArray.CreateBuilder<CardFeedback>();
        CardHistory? card = null;
        while (rows.Step())
        {
            var id = rows.Guid(0);
            if (card is null || card.Card != id)
            {
                Finish(card, feedback, cards);
                card = CardOf(rows, id);
            }

            if (!rows.IsNull(FeedbackTimeColumn))
            {
                feedback.Add(FeedbackOf(rows, id));
            }
        }

        Finish(card, feedback, cards);
        return cards;
    }

    private static void Finish(CardHistory? card, ImmutableArray<CardFeedback>.Builder feedback, List<CardHistory> into)
    {
        if (card is not null)
        {
            into.Add(card with { Feedback = feedback.ToImmutable() });
            feedback.Clear();
        }
    }

    private static CardHistory CardOf(Statement row, Guid id) => new(
        id, row.Text(1), row.Text(2), row.Text(3), (Severity)row.Long(4), new DateTimeOffset(row.Long(5), TimeSpan.Zero), []);

    private static CardFeedback FeedbackOf(Statement row, Guid card) => new(
        card, (CardOutcome)row.Long(7), new DateTimeOffset(row.Long(FeedbackTimeColumn), TimeSpan.Zero), row.Text(8), row.Text(9), row.Text(10), row.Text(11),
        CardKeys.Unpack(row.Blob(12)))
    {
        KeptAt = new DateTimeOffset(row.Long(13), TimeSpan.Zero),
    };
}
