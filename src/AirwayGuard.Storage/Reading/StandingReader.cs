using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Core.Suctioning;
using AirwayGuard.Storage.Sql;
using AirwayGuard.Storage.Writing;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads what stands now, over all patients: for whoever looks at the hospital's places and devices.</summary>
internal static class StandingReader
{
    // Places and devices have few rows of their own; what patients have is never walked.
    private const string FactsOfKind = $"SELECT {FactRow.Columns} FROM facts WHERE about BETWEEN ?1 AND ?2 AND (what >> 32) IN (?3, ?4)";

    public static IReadOnlyList<Entity> Outlets(Database database)
    {
        var found = new SortedSet<Entity>();
        foreach (var kind in (ReadOnlySpan<EntityKind>)[EntityKind.Place, EntityKind.Device])
        {
            using var rows = database.Prepared(FactsOfKind);
            rows.Bind(1, new Entity(kind, 1).Packed).Bind(2, new Entity(kind, Entity.MaxKey).Packed).Bind(3, Concepts.FullLineVacuum.Index).Bind(4, Concepts.DeviceKind.Index);
            while (rows.Step())
            {
                if (FactRow.TryRead(rows, StoredLinks.Now.Value, out var fact) && WallOutlets.IsTold(fact))
                {
                    found.Add(fact.About);
                }
            }
        }

        return [.. found];
    }

    /// <summary>The version of a resource that stands; null where none was kept.</summary>
    public static StandingVersion? VersionOf(Database database, Entity row)
    {
        using var found = database.Prepared(
            "SELECT r.newest, a.version, r.newest_known_at, r.newest_kind, r.row_known FROM resources r JOIN arrivals a ON a.position = r.newest WHERE r.row = ?1");
        return found.Bind(1, row.Packed).Step()
            ? new StandingVersion(
                new Position(found.Long(0)), found.TextOrNull(1), new DateTimeOffset(found.Long(2), TimeSpan.Zero), (ArrivalKind)found.Long(3) == ArrivalKind.Deletion,
                new Position(found.Long(4)))
            : null;
    }

    public static IReadOnlyList<Arrival> OfType(Database database, string type)
    {
        var (kind, positions, found) = (References.KindOf(type), new List<Position>(), new List<Arrival>());
        using (var rows = database.Prepared("SELECT newest FROM resources WHERE row BETWEEN ?1 AND ?2 AND newest_kind = ?3 ORDER BY newest"))
        {
            rows.Bind(1, new Entity(kind, 1).Packed).Bind(2, new Entity(kind, Entity.MaxKey).Packed).Bind(3, (long)ArrivalKind.Resource);
            while (rows.Step())
            {
                positions.Add(new Position(rows.Long(0)));
            }
        }

        foreach (var position in positions)
        {
            if (ArrivalRow.Read(database, position) is { } arrival && arrival.Type == type)
            {
                found.Add(arrival);
            }
        }

        return found;
    }
}
