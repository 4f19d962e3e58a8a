using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Claims for the length of a lease: a patient to judge, or a message to send. What is new does not wait behind old work.</summary>
internal static class ClaimVerb
{
    // However much is new, one claim of so many is the backlog's.
    private const int BacklogsTurn = 4;

    private const string Waiting =
        "SELECT subject, coalesce(claimed_since, since), fence + 1, min(coalesce(affected_from, claimed_from), coalesce(claimed_from, affected_from)), "
        + "max(coalesce(affected_to, claimed_to), coalesce(claimed_to, affected_to)), attempts + 1 FROM subjects ";

    private const string Free =
        " AND coalesce(claimed_since, since) IS NOT NULL AND (leased_until IS NULL OR leased_until <= ?1) AND (not_before IS NULL OR not_before <= ?1) ";

    private const string Fresh = Waiting + "INDEXED BY subjects_fresh WHERE fresh = 1" + Free + "ORDER BY coalesce(claimed_since, since) LIMIT 1";

    private const string Backlog = Waiting + "INDEXED BY subjects_backlog WHERE fresh = 0" + Free
        + "ORDER BY min(coalesce(affected_from, claimed_from), coalesce(claimed_from, affected_from)), coalesce(claimed_since, since) LIMIT 1";

    /// <summary>What a claim that ran out had taken is claimed again together with what has changed since.</summary>
    public static Work? Judge(WriteSession session, TimeSpan lease, DateTimeOffset now)
    {
        var (database, isBacklogsTurn) = (session.Database, session.NextTurn() % BacklogsTurn == 0);
        if ((Next(database, isBacklogsTurn ? Backlog : Fresh, now) ?? Next(database, isBacklogsTurn ? Fresh : Backlog, now)) is not var (subject, since, fence, range, attempts))
        {
            return null;
        }

        database.Prepared(
            "UPDATE subjects SET fence = ?2, leased_until = ?3, claimed_since = ?4, claimed_from = ?5, claimed_to = ?6, since = NULL, affected_from = NULL, affected_to = NULL, "
            + "attempts = ?7, first_tried = coalesce(first_tried, ?8), not_before = NULL WHERE subject = ?1")
            .Bind(1, subject.Packed).Bind(2, fence).Bind(3, (now + lease).UtcTicks).Bind(4, since).Bind(5, range.From).Bind(6, range.To)
            .Bind(7, attempts).Bind(8, now.UtcTicks)
            .Run();
        return new Work(WorkKind.Judge, subject, session.Newest, range, Guid.Empty, attempts, fence);
    }

    private static (Entity Subject, long Since, long Fence, TimeRange Range, int Attempts)? Next(Database database, string query, DateTimeOffset now)
    {
        using var next = database.Prepared(query);
        return next.Bind(1, now.UtcTicks).Step() ? (new Entity(next.Int(0)), next.Long(1), next.Long(2), new TimeRange(next.Long(3), next.Long(4)), next.Int(5)) : null;
    }

    /// <summary>A message whose sending was claimed before without a word of what became of it may have arrived: it is unknown.</summary>
    public static Work? Send(WriteSession session, TimeSpan lease, DateTimeOffset now)
    {
        var database = session.Database;
        if ((Next(database, Urgency.Fresh, now) ?? Next(database, Urgency.Stands, now) ?? Next(database, Urgency.History, now)) is not var (key, subject, fence, attempts))
        {
            return null;
        }

        database.Prepared(
            "UPDATE outbox SET state = CASE WHEN leased_until IS NULL THEN state ELSE 1 END, fence = ?2, attempts = ?3, leased_until = ?4, claimed_revision = revision WHERE key = ?1")
            .Bind(1, key).Bind(2, fence).Bind(3, attempts).Bind(4, (now + lease).UtcTicks)
            .Run();
        return new Work(WorkKind.Send, subject, session.Newest, TimeRange.All, key, attempts, fence);
    }

    private static (Guid Key, Entity Subject, long Fence, int Attempts)? Next(Database database, Urgency urgency, DateTimeOffset now)
    {
        using var next = database.Prepared(
            "SELECT key, subject, fence + 1, attempts + 1 FROM outbox INDEXED BY outbox_waiting "
            + "WHERE state <= 1 AND urgency = ?2 AND not_before <= ?1 AND (leased_until IS NULL OR leased_until <= ?1) ORDER BY not_before, queued LIMIT 1");
        return next.Bind(1, now.UtcTicks).Bind(2, (long)urgency).Step() ? (next.Guid(0), new Entity(next.Int(1)), next.Long(2), next.Int(3)) : null;
    }
}
