using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Messages on their way out, one row a key.</summary>
internal static class Outbox
{
    /// <summary>A newer message takes the place of the one under its key; if that one is being sent, its receipt leaves this one pending. One that waits becomes no less urgent, and waits since it did.</summary>
    /// <param name="at">Now, UTC ticks.</param>
    public static void Queue(Database database, Outgoing outgoing, long at)
    {
        database.Prepared(
            "INSERT INTO outbox (key, kind, subject, content, revision, queued, state, attempts, not_before, fence, urgency, waits_since) "
            + "VALUES (?1, ?2, ?3, ?4, 1, (SELECT coalesce(max(queued), 0) + 1 FROM outbox), 0, 0, 0, 0, ?5, ?6) ON CONFLICT (key) DO UPDATE SET "
            + "urgency = CASE WHEN state <= 1 THEN min(urgency, ?5) ELSE ?5 END, waits_since = CASE WHEN state <= 1 THEN coalesce(waits_since, ?6) ELSE ?6 END, kind = ?2, subject = ?3, content = ?4, revision = revision + 1, queued = excluded.queued, state = 0, attempts = 0, not_before = 0, problem_code = NULL")
            .Bind(1, outgoing.Key).Bind(2, outgoing.Kind).Bind(3, outgoing.Patient.Packed).Bind(4, outgoing.Content).Bind(5, (long)outgoing.Urgency).Bind(6, at)
            .Run();
        Parking.Forget(database, outgoing.Key);
    }

    /// <returns>False where its place was known.</returns>
    public static bool NoteMade(Database database, Guid key, string serverId) =>
        database.Prepared("UPDATE outbox SET server_id = ?2, server_version = coalesce(server_version, '') WHERE key = ?1 AND server_id IS NULL").Bind(1, key).Bind(2, serverId).Run() > 0;

    public static Outgoing? Read(Database database, Guid key)
    {
        using var row = database.Prepared("SELECT kind, subject, content FROM outbox WHERE key = ?1");
        return row.Bind(1, key).Step() ? new Outgoing(key, row.Text(0), new Core.Charting.Entity(row.Int(1)), row.Text(2)) : null;
    }

    /// <summary>Where the resource is, with the version last confirmed, empty where none was; null where nobody knows whether it was ever there.</summary>
    public static ServerVersion? LastSent(Database database, Guid key)
    {
        using var row = database.Prepared("SELECT server_id, server_version FROM outbox WHERE key = ?1 AND server_id IS NOT NULL AND server_version IS NOT NULL");
        return row.Bind(1, key).Step() ? new ServerVersion(row.Text(0), row.Text(1)) : null;
    }
}
