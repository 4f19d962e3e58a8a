using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads the whole history, one patient in memory at a time.</summary>
internal static class HistoryReader
{
    private const int PageSize = 256;

    public static async IAsyncEnumerable<PatientHistory> Read(ReadPool pool, HistoryRange range, [EnumeratorCancellation] CancellationToken stop)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(range.Partitions, 1, nameof(range));
        ArgumentOutOfRangeException.ThrowIfNegative(range.Partition, nameof(range));
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(range.Partition, range.Partitions, nameof(range));
        var last = (long)int.MinValue - 1;
        while (true)
        {
            var page = Page(pool, range, last);
            foreach (var patient in page)
            {
                stop.ThrowIfCancellationRequested();
                yield return One(pool, patient, range);
            }

            if (page.Count < PageSize)
            {
                yield break;
            }

            last = page[^1].Packed;
            await Task.Yield();
        }
    }

    private static PatientHistory One(ReadPool pool, Entity patient, HistoryRange range)
    {
        using var lease = pool.Rent();
        return new PatientHistory(patient, TimelineLoader.Load(lease.Database, patient, range.Window, range.AsKnownAt), JudgedAt(lease.Database, patient, range.AsKnownAt));
    }

    private static List<Entity> Page(ReadPool pool, HistoryRange range, long after)
    {
        using var lease = pool.Rent();
        using var rows = lease.Database.Prepared(
            "SELECT s.subject FROM subjects s JOIN entities e ON e.entity = s.subject WHERE s.subject > ?1 AND (s.subject & ?2) % ?3 = ?4 AND e.first_known <= ?5 ORDER BY s.subject LIMIT ?6");
        rows.Bind(1, after).Bind(2, Entity.MaxKey).Bind(3, range.Partitions).Bind(4, range.Partition).Bind(5, range.AsKnownAt.Value).Bind(6, PageSize);
        var page = new List<Entity>();
        while (rows.Step())
        {
            page.Add(new Entity(rows.Int(0)));
        }

        return page;
    }

    public static ImmutableArray<JudgedPoint> JudgedAt(Database database, Entity patient, Position asKnownAt)
    {
        using var rows = database.Prepared("SELECT j.up_to, j.as_of, b.sha256 FROM judged j JOIN bases b ON b.basis = j.basis WHERE j.subject = ?1 AND j.up_to <= ?2 ORDER BY j.fence");
        rows.Bind(1, patient.Packed).Bind(2, asKnownAt.Value);
        var points = ImmutableArray.CreateBuilder<JudgedPoint>();
        while (rows.Step())
        {
            points.Add(new JudgedPoint(new Position(rows.Long(0)), rows.Long(1), rows.Text(2)));
        }

        return points.ToImmutable();
    }
}
