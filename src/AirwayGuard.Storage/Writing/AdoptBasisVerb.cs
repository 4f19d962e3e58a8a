using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Puts a basis in force. One that differs from the one before is an arrival, and every open stay is marked for judging.</summary>
internal static class AdoptBasisVerb
{
    public static BasisSince Run(WriteSession session, string sha256, RuleDocument? rules, DateTimeOffset now)
    {
        var database = session.Database;
        var basis = Bases.Number(database, sha256);
        if (rules is not null)
        {
            Documents.Keep(database, rules);
        }

        if (InForce(database) is { } before)
        {
            if (before.Basis == basis)
            {
                return before.Since;
            }
        }
        else if (LastJudgedBy(database) is not { } judged || judged == basis)
        {
            return Record(database, basis, new BasisSince(default, now));
        }

        var since = new BasisSince(session.NextPosition(), now);
        ArrivalRow.Insert(database, since.Position, PreparedArrival.OfOwn(ArrivalOf(sha256, now), session.NewSalt()));
        foreach (var subject in OpenStays(database, now))
        {
            new Marking(session).Mark(subject, since.Position, TimeRange.All, isFresh: false);
        }

        session.Audit(new AuditNote("basis", sha256, "{}", default), session.Now);
        return Record(database, basis, since);
    }

    private static (long Basis, BasisSince Since)? InForce(Database database)
    {
        using var row = database.Prepared("SELECT basis, since, since_at FROM bases WHERE since IS NOT NULL ORDER BY since DESC LIMIT 1");
        return row.Step() ? (row.Long(0), new BasisSince(new Position(row.Long(1)), new DateTimeOffset(row.Long(2), TimeSpan.Zero))) : null;
    }

    // In a ledger from before bases were put in force.
    private static long? LastJudgedBy(Database database)
    {
        using var row = database.Prepared("SELECT basis FROM judged ORDER BY as_of DESC LIMIT 1");
        return row.Step() ? row.Long(0) : null;
    }

    private static BasisSince Record(Database database, long basis, BasisSince since)
    {
        database.Prepared("UPDATE bases SET since = ?2, since_at = ?3 WHERE basis = ?1").Bind(1, basis).Bind(2, since.Position.Value).Bind(3, since.At.UtcTicks).Run();
        return since;
    }

    // Who was judged before and has a stay that goes on, or none charted: places and devices have none.
    private static List<Entity> OpenStays(Database database, DateTimeOffset now)
    {
        using var rows = database.Prepared(
            "SELECT subject FROM subjects WHERE NOT EXISTS (SELECT 1 FROM links WHERE to_entity = subject AND kind = ?1 AND known_until = ?2) "
            + "OR EXISTS (SELECT 1 FROM links WHERE to_entity = subject AND kind = ?1 AND known_until = ?2 AND to_time > ?3) ORDER BY subject");
        rows.Bind(1, (long)LinkKind.EncounterOf).Bind(2, Position.Never.Value).Bind(3, now.UtcTicks);
        var subjects = new List<Entity>();
        while (rows.Step())
        {
            subjects.Add(new Entity(rows.Int(0)));
        }

        return subjects;
    }

    private static Arrival ArrivalOf(string sha256, DateTimeOffset now) => new(
        ArrivalKind.NewBasis, "ledger", null, null, null, now, KnownBy.Received, Encoding.UTF8.GetBytes(new JsonObject { ["basis"] = sha256 }.ToJsonString()));
}
