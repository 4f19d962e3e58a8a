using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
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
            + "(SELECT min(coalesce(claimed_since, since)) FROM subjects WHERE coalesce(claimed_since, since) IS NOT NULL AND not_before IS NULL), "
            + "(SELECT count(DISTINCT subject) FROM due WHERE check_id = ?1), (SELECT min(at) FROM due WHERE check_id = ?1), "
            + "(SELECT min(waits_since) FROM outbox INDEXED BY outbox_waiting WHERE state <= 1)");
        row.Bind(1, PatientJudge.ChartedAhead).Step();
        return new LedgerState(new Position(row.Long(0)), row.Long(1), row.Long(2), row.Long(3), row.Long(4), row.Long(5), row.Long(0))
        {
            OldestWaiting = row.LongOrNull(6) is { } oldest ? new Position(oldest) : null,
            OldestUntried = row.LongOrNull(7) is { } untried ? new Position(untried) : null,
            WaitingSince = row.LongOrNull(10) is { } since ? new DateTimeOffset(since, TimeSpan.Zero) : null,
            PatientsAhead = row.Long(8),
            NextAhead = row.LongOrNull(9) is { } ahead ? new DateTimeOffset(ahead, TimeSpan.Zero) : null,
        };
    }

    /// <summary>The latest end of what is claimed now; null where nothing is.</summary>
    public static DateTimeOffset? HeldUntil(Database database)
    {
        using var row = database.Prepared(
            "SELECT max(until) FROM (SELECT max(leased_until) AS until FROM subjects WHERE claimed_since IS NOT NULL "
            + "UNION ALL SELECT max(leased_until) FROM outbox WHERE state <= 1)");
        return row.Step() && row.LongOrNull(0) is { } until ? new DateTimeOffset(until, TimeSpan.Zero) : null;
    }
}
