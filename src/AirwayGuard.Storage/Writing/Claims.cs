using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Claims to judge: whether one still holds, and those whose holder is gone.</summary>
internal static class Claims
{
    /// <summary>
    /// Whoever held a claim when this process alone has the ledger is gone, and its patients need not wait for the lease to run out.
    /// Claims to send stay: what was sent may still be on its way to the server.
    /// </summary>
    public static void FreeForJudging(Database database) => database.Prepared("UPDATE subjects SET leased_until = NULL WHERE leased_until IS NOT NULL").Run();

    public static Committed Standing(Database database, Entity patient, long fence)
    {
        using var claim = database.Prepared("SELECT fence, claimed_since IS NOT NULL FROM subjects WHERE subject = ?1");
        if (!claim.Bind(1, patient.Packed).Step() || claim.Long(0) != fence)
        {
            return Committed.StaleFence;
        }

        return claim.Long(1) == 1 ? Committed.Yes : Committed.Already;
    }
}
