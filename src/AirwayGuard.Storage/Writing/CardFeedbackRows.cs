using System.Text.Json.Nodes;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>What people did with cards, as it is reported. Their own words stand in the table only, never in the trail.</summary>
internal static class CardFeedbackRows
{
    public static FeedbackKept[] Keep(WriteSession session, string service, IReadOnlyList<CardFeedback> feedback, DateTimeOffset now)
    {
        var kept = new FeedbackKept[feedback.Count];
        for (var i = 0; i < kept.Length; i++)
        {
            kept[i] = Keep(session, service, feedback[i], now);
        }

        return kept;
    }

    private static FeedbackKept Keep(WriteSession session, string service, CardFeedback feedback, DateTimeOffset now)
    {
        if (CheckOf(session.Database, service, feedback.Card) is not { } check)
        {
            return FeedbackKept.CardUnknown;
        }

        if (Insert(session.Database, feedback, now) == 0)
        {
            return FeedbackKept.Repeated;
        }

        session.Audit(NoteOf(feedback, check), session.Now);
        return FeedbackKept.Kept;
    }

    private static string? CheckOf(Database database, string service, Guid card)
    {
        using var row = database.Prepared("SELECT check_id FROM cards WHERE card = ?1 AND service = ?2");
        return row.Bind(1, card).Bind(2, service).Step() ? row.Text(0) : null;
    }

    private static int Insert(Database database, CardFeedback feedback, DateTimeOffset now) =>
        database.Prepared(
            "INSERT INTO card_feedback (card, at, outcome, reason_system, reason_code, reason_display, comment, suggestions, kept_at) "
            + "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT DO NOTHING")
        .Bind(1, feedback.Card).Bind(2, feedback.At.UtcTicks).Bind(3, (long)feedback.Outcome).Bind(4, feedback.ReasonSystem).Bind(5, feedback.ReasonCode)
        .Bind(6, feedback.ReasonDisplay).Bind(7, feedback.Comment).Bind(8, CardKeys.Pack(feedback.Suggestions)).Bind(9, now.UtcTicks)
        .Run();

    private static AuditNote NoteOf(CardFeedback feedback, string check)
    {
        var detail = new JsonObject { ["check"] = check, ["outcome"] = feedback.Outcome.ToString().ToLowerInvariant() };
        if (OverrideReasons.CodeOf(feedback) is { Length: > 0 } reason)
        {
            detail["reason"] = reason;
        }

        detail["suggestions"] = feedback.Suggestions.IsDefault ? 0 : feedback.Suggestions.Length;
        return new AuditNote("card-answered", feedback.Card.ToString(), detail.ToJsonString(), default);
    }
}
