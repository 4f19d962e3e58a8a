using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Writing;

/// <summary>Which version of a resource stands after one more was kept, and what the one before it ceases to say.</summary>
internal sealed class Succession(Database database, PreparedArrival prepared, Standing? before, Position position)
{
    /// <returns>Whether the new version stands, and since when the resource is known.</returns>
    public (bool Stands, Position RowKnown) Apply(Position firstOfCommit, Marking marking)
    {
        var knownAt = prepared.Arrival.KnownAt.UtcTicks;
        if (before is not { } newest)
        {
            Record(knownAt, firstOfCommit);
            return (true, firstOfCommit);
        }

        if (IsOlder(newest, knownAt))
        {
            return (false, newest.RowKnown);
        }

        EndFacts(newest.Position.Value, marking);
        EndLinks(newest.Position.Value, marking);
        Record(knownAt, newest.RowKnown);
        return (true, newest.RowKnown);
    }

    // A server whose clock was set back stamps the next version earlier than the one before; where versions are counted, the count
    // tells. After a deletion it may begin anew.
    private bool IsOlder(Standing newest, long knownAt)
    {
        if (newest.Kind == ArrivalKind.Deletion)
        {
            return knownAt < newest.KnownAt;
        }

        using var standing = database.Prepared("SELECT version FROM arrivals WHERE position = ?1");
        return standing.Bind(1, newest.Position.Value).Step() && Count(standing.TextOrNull(0)) is { } before && Count(prepared.Arrival.Version) is { } now
            ? now < before
            : knownAt < newest.KnownAt;
    }

    private static long? Count(string? version) => long.TryParse(version, NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : null;

    private void Record(long knownAt, Position rowKnown) =>
        database.Prepared(
            "INSERT INTO resources (row, newest, newest_known_at, newest_kind, row_known) VALUES (?1, ?2, ?3, ?4, ?5) "
            + "ON CONFLICT (row) DO UPDATE SET newest = ?2, newest_known_at = ?3, newest_kind = ?4")
        .Bind(1, prepared.Row.Packed).Bind(2, position.Value).Bind(3, knownAt).Bind(4, (long)prepared.Arrival.Kind).Bind(5, rowKnown.Value)
        .Run();

    private void EndFacts(long of, Marking marking)
    {
        using var ended = database.Prepared("UPDATE facts INDEXED BY facts_by_position SET known_until = ?2 WHERE position = ?1 RETURNING about, effective_from, effective_to");
        ended.Bind(1, of).Bind(2, position.Value);
        while (ended.Step())
        {
            marking.Touch(new Entity(ended.Int(0)), new TimeRange(ended.Long(1), ended.Long(2)));
        }
    }

    private void EndLinks(long of, Marking marking)
    {
        using var ended = database.Prepared("UPDATE links INDEXED BY links_by_position SET known_until = ?2 WHERE position = ?1 RETURNING from_entity, to_entity, from_time, to_time");
        ended.Bind(1, of).Bind(2, position.Value);
        while (ended.Step())
        {
            var range = new TimeRange(ended.Long(2), ended.Long(3));
            marking.Touch(new Entity(ended.Int(0)), range);
            marking.Touch(new Entity(ended.Int(1)), range);
        }
    }
}
