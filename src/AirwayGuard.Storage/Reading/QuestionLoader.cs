using System.Collections.Immutable;
using System.Globalization;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Reading;

/// <summary>Reads what a question needs of a patient's chart as known at one position, by concept.</summary>
internal static class QuestionLoader
{
    private const string ByConcept = $"SELECT {FactRow.Columns} FROM facts INDEXED BY facts_by_concept WHERE about = ?1";

    // The ones that began before the window and reach into it.
    private const string Lasting =
        $"SELECT {FactRow.Columns} FROM facts INDEXED BY facts_lasting_by_concept WHERE about = ?1 AND effective_to > effective_from AND effective_to >= ?2 AND effective_from < ?2 AND effective_from > ?3";

    // After the parameters of the times.
    private const int FirstConcept = 4;

    /// <param name="entities">Filled with those whose facts and links were looked for: what is loaded rests on nothing else.</param>
    public static TimelineLease Load(Database database, Entity patient, QuestionScope scope, Position asKnownAt, ISet<Entity> entities) => TimelineLoader.InOneView(database, () =>
    {
        var links = new List<Link>();
        Scope.OfPatient(patient, new QuestionLinks(database, scope.Window, asKnownAt), entities, links);
        links.Sort(TimelineLoader.ByArrival);
        var facts = new FactBuffer();
        var always = scope.Always.Distinct().ToImmutableArray();
        var recent = scope.Recent.Except(always).ToImmutableArray();
        var isLong = scope.Since > long.MinValue && BeganBefore(database, patient, scope.Since);
        foreach (var entity in entities)
        {
            if (isLong && entity == patient)
            {
                ReadRecent(database, patient, always, new TimeRange(scope.Since, long.MaxValue), asKnownAt, facts);
                ReadLatest(database, patient, always, scope.Since, asKnownAt, facts);
                if (scope.Window == TimeRange.All)
                {
                    Read(database, patient, recent, asKnownAt, facts);
                }
            }
            else
            {
                Read(database, entity, scope.Window == TimeRange.All ? [.. always, .. recent] : always, asKnownAt, facts);
            }

            if (scope.Window != TimeRange.All)
            {
                ReadRecent(database, entity, recent, scope.Window, asKnownAt, facts);
            }
        }

        return facts.ToLease(patient, links, asKnownAt);
    });

    private static bool BeganBefore(Database database, Entity patient, long since)
    {
        using var row = database.Prepared("SELECT 1 FROM facts WHERE about = ?1 AND effective_from > ?2 AND effective_from < ?3 LIMIT 1");
        return row.Bind(1, patient.Packed).Bind(2, long.MinValue).Bind(3, since).Step();
    }

    // All that was charted at the latest time before, as known: two rows of one instant may contradict each other. What reaches beyond was read already.
    private static void ReadLatest(Database database, Entity patient, ImmutableArray<Concept> concepts, long since, Position asKnownAt, FactBuffer into)
    {
        const string Latest =
            ByConcept + " AND what >> 32 = ?2 AND (effective_to < ?4 OR effective_to = effective_from) AND effective_from = (SELECT effective_from FROM facts INDEXED BY facts_by_concept"
            + " WHERE about = ?1 AND what >> 32 = ?2 AND effective_from > ?3 AND effective_from < ?4 AND position <= ?5 AND known_until > ?5 ORDER BY effective_from DESC LIMIT 1)";
        foreach (var concept in concepts)
        {
            using var rows = database.Prepared(Latest);
            rows.Bind(1, patient.Packed).Bind(2, concept.Index).Bind(3, long.MinValue).Bind(4, since).Bind(5, asKnownAt.Value);
            into.Take(rows, asKnownAt);
        }
    }

    private static void Read(Database database, Entity entity, ImmutableArray<Concept> concepts, Position asKnownAt, FactBuffer into) =>
        Take(database, ByConcept, entity, concepts, default, asKnownAt, into);

    private static void ReadRecent(Database database, Entity entity, ImmutableArray<Concept> concepts, TimeRange window, Position asKnownAt, FactBuffer into)
    {
        const string Within = ByConcept + " AND effective_from BETWEEN ?2 AND ?3", Timeless = ByConcept + " AND effective_from = ?3";
        Take(database, Within, entity, concepts, window, asKnownAt, into);
        if (window.From > long.MinValue)
        {
            var began = new TimeRange(window.From, long.MinValue);
            Take(database, Timeless, entity, concepts, began, asKnownAt, into);
            Take(database, Lasting, entity, concepts, began, asKnownAt, into);
        }
    }

    private static void Take(Database database, string sql, Entity entity, ImmutableArray<Concept> concepts, TimeRange times, Position asKnownAt, FactBuffer into)
    {
        if (concepts.IsEmpty)
        {
            return;
        }

        using var rows = database.Prepared(sql + Among(concepts.Length));
        rows.Bind(1, entity.Packed).Bind(2, times.From).Bind(3, times.To);
        for (var i = 0; i < concepts.Length; i++)
        {
            rows.Bind(FirstConcept + i, concepts[i].Index);
        }

        into.Take(rows, asKnownAt);
    }

    private static string Among(int count) =>
        $" AND what >> 32 IN ({string.Join(", ", Enumerable.Range(FirstConcept, count).Select(static i => string.Create(CultureInfo.InvariantCulture, $"?{i}")))})";
}
