using System.Text;
using System.Text.Json.Nodes;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Writing;

/// <summary>Turns due times into arrivals. Row and arrival change places in one commit, so each falls due once.</summary>
internal static class RaiseDueVerb
{
    // A patient being judged is judged anew in any case. Raised meanwhile, the time would stand in that judgement's due times again.
    private const string Fallen = "at <= ?1 AND NOT EXISTS (SELECT 1 FROM subjects WHERE subjects.subject = due.subject AND claimed_since IS NOT NULL)";

    public static int Run(WriteSession session, DateTimeOffset now)
    {
        var due = Due(session, now);
        if (due.Count == 0)
        {
            return 0;
        }

        var marking = new Marking(session);
        var first = new Position(session.Newest.Value + 1);
        foreach (var (subject, at, check) in due)
        {
            ArrivalRow.Insert(session.Database, session.NextPosition(), PreparedArrival.OfOwn(ArrivalOf(session.NameOf(subject), at, check, now), session.NewSalt()));
            marking.Mark(subject, first, new TimeRange(at, at), isFresh: true);
        }

        session.Database.Prepared("DELETE FROM due WHERE " + Fallen).Bind(1, now.UtcTicks).Run();
        session.Audit(new AuditNote("due", $"{first.Value}-{session.Newest.Value}", "{}", default), session.Now);
        return due.Count;
    }

    private static List<(Entity Subject, long At, string Check)> Due(WriteSession session, DateTimeOffset now)
    {
        using var rows = session.Database.Prepared("SELECT subject, at, check_id FROM due WHERE " + Fallen + " ORDER BY at, subject, check_id");
        rows.Bind(1, now.UtcTicks);
        var due = new List<(Entity, long, string)>();
        while (rows.Step())
        {
            due.Add((new Entity(rows.Int(0)), rows.Long(1), rows.Text(2)));
        }

        return due;
    }

    private static Arrival ArrivalOf(string subject, long at, string check, DateTimeOffset now)
    {
        var body = new JsonObject { ["at"] = at, ["check"] = check, ["subject"] = subject };
        return new Arrival(ArrivalKind.DueTime, "ledger", null, null, null, now, KnownBy.Received, Encoding.UTF8.GetBytes(body.ToJsonString()));
    }
}
