using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Writing;

/// <summary>Ends a claim to judge that failed: the patient waits for another try, or is set aside.</summary>
internal static class FailVerb
{
    public static Committed Run(WriteSession session, FailedJudgement failed)
    {
        var database = session.Database;
        if (Claims.Standing(database, failed.Patient, failed.Fence) is not Committed.Yes and var refused)
        {
            return refused;
        }

        if (failed.NotBefore is { } next)
        {
            database.Prepared("UPDATE subjects SET leased_until = NULL, not_before = ?2 WHERE subject = ?1").Bind(1, failed.Patient.Packed).Bind(2, next.UtcTicks).Run();
            return Committed.Yes;
        }

        var first = FirstTried(session, failed);
        // One try fewer, so that what is charted next is tried once, whatever the number of tries.
        database.Prepared(
            "UPDATE subjects SET leased_until = NULL, claimed_since = NULL, claimed_from = NULL, claimed_to = NULL, attempts = max(attempts - 1, 0), "
            + "fresh = CASE WHEN since IS NULL THEN 0 ELSE fresh END WHERE subject = ?1")
            .Bind(1, failed.Patient.Packed)
            .Run();
        Parking.Park(session, new ParkedItem(null, null, failed.Code, session.NameOf(failed.Patient), failed.At) { Patient = failed.Patient }, first);
        return Committed.Yes;
    }

    private static DateTimeOffset FirstTried(WriteSession session, FailedJudgement failed)
    {
        using var tried = session.Database.Prepared("SELECT first_tried FROM subjects WHERE subject = ?1");
        return tried.Bind(1, failed.Patient.Packed).Step() && tried.LongOrNull(0) is { } at ? new DateTimeOffset(at, TimeSpan.Zero) : failed.At;
    }
}
