using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>What was set aside, with its reason.</summary>
internal static class Parking
{
    /// <summary>Parks an arrival or a message; the same thing parked again for the same reason stays one item.</summary>
    public static bool Park(WriteSession session, ParkedItem item)
    {
        Add(session.Database, item);
        if (item.Outgoing is { } outgoing)
        {
            // The fence grows, so that a receipt still on its way cannot bring it back.
            session.Database.Prepared("UPDATE outbox SET state = 3, fence = fence + 1, leased_until = NULL, claimed_revision = NULL, problem_code = ?2 WHERE key = ?1")
                .Bind(1, outgoing).Bind(2, item.Code)
                .Run();
        }

        session.Audit(new AuditNote("parked", item.Outgoing?.ToString() ?? item.Arrival?.Value.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "", $$"""{"code":"{{item.Code}}"}""", default), session.Now);
        return true;
    }

    public static void Add(Database database, ParkedItem item)
    {
        database.Prepared("DELETE FROM parked WHERE arrival IS ?1 AND outgoing IS ?2 AND code = ?3 AND place = ?4")
            .Bind(1, item.Arrival?.Value).Bind(2, item.Outgoing).Bind(3, item.Code).Bind(4, item.Where)
            .Run();
        database.Prepared("INSERT INTO parked (arrival, outgoing, code, place, at) VALUES (?1, ?2, ?3, ?4, ?5)")
            .Bind(1, item.Arrival?.Value).Bind(2, item.Outgoing).Bind(3, item.Code).Bind(4, item.Where).Bind(5, item.At.UtcTicks)
            .Run();
    }

    /// <summary>A newer message has taken the place of a parked one.</summary>
    public static void Forget(Database database, Guid outgoing) => database.Prepared("DELETE FROM parked WHERE outgoing = ?1").Bind(1, outgoing).Run();

    public static List<ParkedItem> Read(Database database)
    {
        using var rows = database.Prepared("SELECT arrival, outgoing, code, place, at FROM parked ORDER BY number");
        var items = new List<ParkedItem>();
        while (rows.Step())
        {
            items.Add(new ParkedItem(
                rows.LongOrNull(0) is { } arrival ? new Position(arrival) : null,
                rows.IsNull(1) ? null : rows.Guid(1),
                rows.Text(2),
                rows.Text(3),
                new DateTimeOffset(rows.Long(4), TimeSpan.Zero)));
        }

        return items;
    }
}
