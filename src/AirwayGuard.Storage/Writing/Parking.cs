using System.Globalization;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>What was set aside, with its reason.</summary>
internal static class Parking
{
    /// <summary>Parks an arrival, a message or a patient's judging; the same thing parked again for the same reason stays one item.</summary>
    /// <param name="first">When it was first tried, where that was before.</param>
    public static bool Park(WriteSession session, ParkedItem item, DateTimeOffset? first = null)
    {
        Add(session.Database, item, first);
        if (item.Outgoing is { } outgoing)
        {
            // The fence grows, so that a receipt still on its way cannot bring it back.
            session.Database.Prepared("UPDATE outbox SET state = 3, fence = fence + 1, leased_until = NULL, claimed_revision = NULL, problem_code = ?2 WHERE key = ?1")
                .Bind(1, outgoing).Bind(2, item.Code)
                .Run();
        }

        session.Audit(new AuditNote("parked", SubjectOf(item), $$"""{"code":"{{item.Code}}"}""", default), session.Now);
        return true;
    }

    public static void Add(Database database, ParkedItem item, DateTimeOffset? first = null)
    {
        var again = database.Prepared("UPDATE parked SET at = ?5 WHERE arrival IS ?1 AND outgoing IS ?2 AND code = ?3 AND place = ?4 AND subject IS ?6")
            .Bind(1, item.Arrival?.Value).Bind(2, item.Outgoing).Bind(3, item.Code).Bind(4, item.Where).Bind(5, item.At.UtcTicks).Bind(6, Packed(item))
            .Run();
        if (again == 0)
        {
            database.Prepared("INSERT INTO parked (arrival, outgoing, code, place, first_at, at, subject) VALUES (?1, ?2, ?3, ?4, ?7, ?5, ?6)")
                .Bind(1, item.Arrival?.Value).Bind(2, item.Outgoing).Bind(3, item.Code).Bind(4, item.Where).Bind(5, item.At.UtcTicks).Bind(6, Packed(item))
                .Bind(7, (first ?? item.At).UtcTicks)
                .Run();
        }
    }

    /// <summary>Puts one thing back; <paramref name="keep"/> keeps what was read again of an arrival.</summary>
    public static bool Retry(WriteSession session, long number, KeepVerb? keep)
    {
        if (Take(session.Database, number) is not { } entry)
        {
            return false;
        }

        keep?.Run(session);
        if (entry.Item.Outgoing is { } outgoing)
        {
            // The fence grows, so that a receipt still on its way cannot settle it.
            session.Database.Prepared("UPDATE outbox SET state = 0, attempts = 0, not_before = 0, fence = fence + 1, problem_code = NULL, waits_since = ?2 WHERE key = ?1 AND state = 3")
                .Bind(1, outgoing).Bind(2, session.Now.UtcTicks)
                .Run();
        }

        if (!entry.Item.Patient.IsNone)
        {
            StartAnew(session.Database, entry.Item.Patient);
            new Marking(session).Mark(entry.Item.Patient, session.Newest, TimeRange.All, isFresh: true);
        }

        session.Audit(NoteOf("parked-retried", entry, null), session.Now);
        return true;
    }

    public static bool Drop(WriteSession session, long number, string reason)
    {
        if (Take(session.Database, number) is not { } entry)
        {
            return false;
        }

        if (!entry.Item.Patient.IsNone)
        {
            StartAnew(session.Database, entry.Item.Patient);
        }

        session.Audit(NoteOf("parked-dropped", entry, reason), session.Now);
        return true;
    }

    private static void StartAnew(Database database, Entity patient) =>
        database.Prepared("UPDATE subjects SET attempts = 0, first_tried = NULL, not_before = NULL WHERE subject = ?1").Bind(1, patient.Packed).Run();

    private static long? Packed(ParkedItem item) => item.Patient.IsNone ? null : item.Patient.Packed;

    private static ParkedEntry? Take(Database database, long number)
    {
        using var taken = database.Prepared("DELETE FROM parked WHERE number = ?1 RETURNING number, arrival, outgoing, code, place, first_at, at, subject");
        if (!taken.Bind(1, number).Step())
        {
            return null;
        }

        var entry = ReadEntry(taken);
        while (taken.Step())
        {
        }

        return entry;
    }

    private static AuditNote NoteOf(string what, ParkedEntry entry, string? reason)
    {
        var detail = new JsonObject { ["code"] = entry.Item.Code, ["number"] = entry.Number };
        if (reason is not null)
        {
            detail["reason"] = reason;
        }

        return new AuditNote(what, SubjectOf(entry.Item), detail.ToJsonString(), default);
    }

    private static string SubjectOf(ParkedItem item) => item.Outgoing?.ToString() ?? item.Arrival?.Value.ToString(CultureInfo.InvariantCulture) ?? (item.Patient.IsNone ? "" : item.Where);

    /// <summary>A newer message has taken the place of a parked one.</summary>
    public static void Forget(Database database, Guid outgoing) => database.Prepared("DELETE FROM parked WHERE outgoing = ?1").Bind(1, outgoing).Run();

    /// <summary>The patient was judged after all.</summary>
    public static void Forget(Database database, Entity patient) => database.Prepared("DELETE FROM parked WHERE subject = ?1").Bind(1, patient.Packed).Run();

    public static List<ParkedItem> Read(Database database) => Entries(database).ConvertAll(entry => entry.Item);

    /// <summary>What is set aside, by number.</summary>
    public static List<ParkedEntry> Entries(Database database)
    {
        using var rows = database.Prepared("SELECT number, arrival, outgoing, code, place, first_at, at, subject FROM parked ORDER BY number");
        var entries = new List<ParkedEntry>();
        while (rows.Step())
        {
            entries.Add(ReadEntry(rows));
        }

        return entries;
    }

    private static ParkedEntry ReadEntry(Statement row) => new(
        row.Long(0),
        new ParkedItem(
            row.LongOrNull(1) is { } arrival ? new Position(arrival) : null, row.IsNull(2) ? null : row.Guid(2), row.Text(3), row.Text(4),
            new DateTimeOffset(row.Long(6), TimeSpan.Zero))
        { Patient = row.IsNull(7) ? default : new Entity(row.Int(7)) },
        new DateTimeOffset(row.Long(5), TimeSpan.Zero));
}
