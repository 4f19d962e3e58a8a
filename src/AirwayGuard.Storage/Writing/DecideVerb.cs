using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Findings;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Writes what a judgement decided, if the claim it was made under is still the newest.</summary>
internal static class DecideVerb
{
    public static Committed Run(WriteSession session, Decision decision)
    {
        var database = session.Database;
        if (Claims.Standing(database, decision.Patient, decision.Fence) is not Committed.Yes and var refused)
        {
            return refused;
        }

        if (decision.Changes.Any(finding => IsAnothers(database, finding)))
        {
            // Judged beside a judgement of the other patient, who has the key now: the claim runs out, and the next one knows.
            return Committed.StaleFence;
        }

        var basis = Bases.Number(database, decision.BasisSha256);
        foreach (var finding in decision.Changes)
        {
            FindingRow.Save(database, finding);
        }

        foreach (var outgoing in decision.Outgoing)
        {
            Outbox.Queue(database, outgoing, decision.AsOf);
        }

        ReplaceDue(database, decision);
        database.Prepared("INSERT INTO judged (subject, fence, up_to, as_of, basis) VALUES (?1, ?2, ?3, ?4, ?5)")
            .Bind(1, decision.Patient.Packed).Bind(2, decision.Fence).Bind(3, decision.UpTo.Value).Bind(4, decision.AsOf).Bind(5, basis)
            .Run();
        database.Prepared("UPDATE subjects SET leased_until = NULL, claimed_since = NULL, claimed_from = NULL, claimed_to = NULL, attempts = 0, first_tried = NULL, fresh = CASE WHEN since IS NULL THEN 0 ELSE fresh END WHERE subject = ?1")
            .Bind(1, decision.Patient.Packed)
            .Run();
        Parking.Forget(database, decision.Patient);
        foreach (var note in decision.Audit)
        {
            session.Audit(note, session.Now);
        }

        return Committed.Yes;
    }

    private static bool IsAnothers(Database database, FindingRecord finding)
    {
        using var row = database.Prepared("SELECT subject FROM findings WHERE key = ?1");
        return row.Bind(1, finding.Key).Step() && new Entity(row.Int(0)) is { Kind: EntityKind.Patient } holder && holder != finding.Patient;
    }

    private static void ReplaceDue(Database database, Decision decision)
    {
        database.Prepared("DELETE FROM due WHERE subject = ?1").Bind(1, decision.Patient.Packed).Run();
        foreach (var due in decision.Due)
        {
            database.Prepared("INSERT INTO due (subject, at, check_id) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING")
                .Bind(1, decision.Patient.Packed).Bind(2, due.At).Bind(3, due.Check)
                .Run();
        }
    }
}
