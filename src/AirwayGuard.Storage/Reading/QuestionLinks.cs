using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>The links of the ledger that a question goes by, as known at one position.</summary>
internal sealed class QuestionLinks(Database database, TimeRange window, Position asKnownAt) : ILinkSource
{
    private const string Select = $"SELECT {LinkRow.Columns} FROM links INDEXED BY";
    private const string Known = "position <= ?2 AND known_until > ?2";

    // As in the indexes: of UsedBy, StandsAt, EncounterOf, TakesPlaceAt and MetricOf; and of NamedWith.
    private const string Standing = "kind <= 5", Named = "kind = 13", InWindow = "to_time > ?3 AND from_time <= ?4";

    private const string StandingFrom = $"{Select} links_standing_from WHERE {Standing} AND from_entity = ?1 AND {Known}";
    private const string StandingTo = $"{Select} links_standing_to WHERE {Standing} AND to_entity = ?1 AND {Known}";
    private const string NamedFrom = $"{Select} links_named_from WHERE {Named} AND from_entity = ?1 AND {InWindow} AND {Known}";
    private const string NamedTo = $"{Select} links_named_to WHERE {Named} AND to_entity = ?1 AND from_entity = ?5 AND {InWindow} AND {Known}";
    private const string LastNamedTo = $"{Select} links_named_to WHERE {Named} AND to_entity = ?1 AND from_entity = ?3 AND {Known} ORDER BY to_time DESC, position DESC LIMIT 1";

    // From one device to the next, so that a device that was named a thousand times costs no more than one that was named once.
    private const string NextNamed = $"SELECT from_entity FROM links INDEXED BY links_named_to WHERE {Named} AND to_entity = ?1 AND from_entity > ?2 ORDER BY from_entity LIMIT 1";

    public IEnumerable<Link> From(Entity entity)
    {
        var links = new List<Link>();
        Take(Bind(StandingFrom, entity), links);
        if (entity.Kind is EntityKind.Device or EntityKind.Metric)
        {
            Take(BindWindow(NamedFrom, entity), links);
        }

        return links;
    }

    public IEnumerable<Link> To(Entity entity)
    {
        var links = new List<Link>();
        Take(Bind(StandingTo, entity), links);
        if (entity.Kind == EntityKind.Patient)
        {
            TakeNamed(entity, links);
        }

        return links;
    }

    /// <summary>Whether a question reaches things of this kind.</summary>
    private static bool IsReached(Entity entity) =>
        entity.Kind is EntityKind.Patient or EntityKind.Encounter or EntityKind.Place or EntityKind.Device or EntityKind.Metric or EntityKind.Statement;

    private void TakeNamed(Entity patient, List<Link> into)
    {
        for (var device = NextDevice(patient, (long)int.MinValue - 1); device is { } named; device = NextDevice(patient, named.Packed))
        {
            var before = into.Count;
            Take(BindWindow(NamedTo, patient).Bind(5, named.Packed), into);
            if (into.Count == before)
            {
                Take(Bind(LastNamedTo, patient).Bind(3, named.Packed), into);
            }
        }
    }

    private Entity? NextDevice(Entity patient, long after)
    {
        using var row = database.Prepared(NextNamed);
        return row.Bind(1, patient.Packed).Bind(2, after).Step() ? new Entity(row.Int(0)) : null;
    }

    private Statement Bind(string sql, Entity entity) => database.Prepared(sql).Bind(1, entity.Packed).Bind(2, asKnownAt.Value);

    private Statement BindWindow(string sql, Entity entity) => Bind(sql, entity).Bind(3, window.From).Bind(4, window.To);

    private static void Take(Statement bound, List<Link> into)
    {
        using var rows = bound;
        while (rows.Step())
        {
            var link = LinkRow.Read(rows);
            if (IsReached(link.From) && IsReached(link.To))
            {
                into.Add(link);
            }
        }
    }
}
