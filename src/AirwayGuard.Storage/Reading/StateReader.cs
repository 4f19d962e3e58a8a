using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Counts how things stand.</summary>
internal static class StateReader
{
    /// <summary>Positions have no gaps, so the newest one is also the number of arrivals.</summary>
    public static LedgerState Read(Database database)
    {
        using var row = database.Prepared(
            "SELECT coalesce((SELECT max(position) FROM arrivals), 0), "
            + "(SELECT count(*) FROM subjects WHERE coalesce(claimed_since, since) IS NOT NULL), "
            + "(SELECT count(*) FROM outbox WHERE state = 0), (SELECT count(*) FROM outbox WHERE state = 1), (SELECT count(*) FROM outbox WHERE state = 2), "
            + "(SELECT count(*) FROM parked), (SELECT min(coalesce(claimed_since, since)) FROM subjects WHERE coalesce(claimed_since, since) IS NOT NULL), "
            + "(SELECT min(coalesce(claimed_since, since)) FROM subjects WHERE coalesce(claimed_since, since) IS NOT NULL AND not_before IS NULL)");
        row.Step();
        return new LedgerState(new Position(row.Long(0)), row.Long(1), row.Long(2), row.Long(3), row.Long(4), row.Long(5), row.Long(0))
        {
            OldestWaiting = row.LongOrNull(6) is { } oldest ? new Position(oldest) : null,
            OldestUntried = row.LongOrNull(7) is { } untried ? new Position(untried) : null,
        };
    }
}
