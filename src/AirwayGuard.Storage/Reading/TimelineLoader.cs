using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads a patient's facts and links as known at one position.</summary>
internal static class TimelineLoader
{
    private const string All = $"SELECT {FactRow.Columns} FROM facts WHERE about = ?1";
    private const string Within = $"{All} AND effective_from BETWEEN ?2 AND ?3";
    private const string Timeless = $"{All} AND effective_from = ?2";

    // The ones that began before the window and reach into it; few facts last.
    private const string Lasting =
        $"SELECT {FactRow.Columns} FROM facts INDEXED BY facts_lasting WHERE about = ?1 AND effective_to > effective_from AND effective_to >= ?2 AND effective_from < ?2 AND effective_from > ?3";

    public static TimelineLease Load(Database database, Entity patient, TimeRange window, Position asKnownAt) => InOneView(database, () =>
    {
        var entities = new HashSet<Entity>();
        var links = new List<Link>();
        Scope.OfPatient(patient, new StoredLinks(database, asKnownAt), entities, links);
        links.Sort(ByArrival);
        var facts = new FactBuffer();
        foreach (var entity in entities)
        {
            Read(database, entity, window, asKnownAt, facts);
        }

        return facts.ToLease(patient, links, asKnownAt);
    });

    /// <summary>One view of the file for all of it, and one lock to take instead of one a statement.</summary>
    public static TimelineLease InOneView(Database database, Func<TimelineLease> load)
    {
        database.Prepared("BEGIN").Run();
        try
        {
            return load();
        }
        finally
        {
            database.Prepared("COMMIT").Run();
        }
    }

    private static void Read(Database database, Entity entity, TimeRange window, Position asKnownAt, FactBuffer into)
    {
        if (window == TimeRange.All)
        {
            using var all = database.Prepared(All);
            into.Take(all.Bind(1, entity.Packed), asKnownAt);
            return;
        }

        using (var within = database.Prepared(Within))
        {
            into.Take(within.Bind(1, entity.Packed).Bind(2, window.From).Bind(3, window.To), asKnownAt);
        }

        if (window.From == long.MinValue)
        {
            return;
        }

        using (var timeless = database.Prepared(Timeless))
        {
            into.Take(timeless.Bind(1, entity.Packed).Bind(2, long.MinValue), asKnownAt);
        }

        using (var lasting = database.Prepared(Lasting))
        {
            into.Take(lasting.Bind(1, entity.Packed).Bind(2, window.From).Bind(3, long.MinValue), asKnownAt);
        }
    }

    public static int ByArrival(Link left, Link right)
    {
        var by = left.Id.Arrival.CompareTo(right.Id.Arrival);
        by = by != 0 ? by : left.Id.Ordinal.CompareTo(right.Id.Ordinal);
        by = by != 0 ? by : left.Kind.CompareTo(right.Kind);
        by = by != 0 ? by : left.From.CompareTo(right.From);
        by = by != 0 ? by : left.To.CompareTo(right.To);
        by = by != 0 ? by : left.FromTime.CompareTo(right.FromTime);
        return by != 0 ? by : left.ToTime.CompareTo(right.ToTime);
    }
}
