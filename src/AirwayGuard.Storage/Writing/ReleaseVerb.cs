using AirwayGuard.Core.Ports;

namespace AirwayGuard.Storage.Writing;

/// <summary>Gives a claim back as if it had not been tried. Appends nothing, so that it needs as little room as a claim.</summary>
internal static class ReleaseVerb
{
    public static Committed Run(WriteSession session, Work work) => work.Kind == WorkKind.Judge ? Judge(session, work) : Send(session, work);

    private static Committed Judge(WriteSession session, Work work)
    {
        var standing = Claims.Standing(session.Database, work.Patient, work.Fence);
        if (standing == Committed.Yes)
        {
            session.Database.Prepared("UPDATE subjects SET leased_until = NULL, attempts = max(attempts - 1, 0) WHERE subject = ?1").Bind(1, work.Patient.Packed).Run();
        }

        return standing;
    }

    // It may have arrived: what is claimed next looks.
    private static Committed Send(WriteSession session, Work work)
    {
        using (var sending = session.Database.Prepared("SELECT fence, leased_until IS NOT NULL FROM outbox WHERE key = ?1"))
        {
            if (!sending.Bind(1, work.Outgoing).Step() || sending.Long(0) != work.Fence)
            {
                return Committed.StaleFence;
            }

            if (sending.Long(1) == 0)
            {
                return Committed.Already;
            }
        }

        session.Database.Prepared("UPDATE outbox SET state = 1, leased_until = NULL, claimed_revision = NULL, attempts = max(attempts - 1, 0) WHERE key = ?1").Bind(1, work.Outgoing).Run();
        return Committed.Yes;
    }
}
