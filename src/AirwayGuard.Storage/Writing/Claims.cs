using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Whether a claim to judge still holds.</summary>
internal static class Claims
{
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
