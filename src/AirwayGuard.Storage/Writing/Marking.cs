using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Ports;
using AirwayGuard.Storage.Reading;

namespace AirwayGuard.Storage.Writing;

/// <summary>Collects the entities that one commit touches, and marks for judging whomever they concern.</summary>
internal sealed class Marking(WriteSession session)
{
    private readonly Dictionary<Entity, TimeRange> _touched = [];
    // Outlets and regulators are judged by themselves, also where patients are known.
    private readonly HashSet<Entity> _alone = [];
    private readonly HashSet<Entity> _fresh = [];
    private readonly StoredLinks _links = new(session.Database, StoredLinks.Now);

    /// <summary>What is touched now is of an arrival that became known lately.</summary>
    public bool IsFresh { get; set; }

    public void Touch(Core.Ports.Reading reading)
    {
        foreach (var fact in reading.Facts)
        {
            if (fact.IsJudgedAlone)
            {
                _alone.Add(fact.About);
            }

            Touch(fact.About, fact.Has(FactMarks.Timeless) ? TimeRange.All : new TimeRange(fact.EffectiveFrom, fact.EffectiveTo));
        }

        foreach (var link in reading.Links)
        {
            var range = new TimeRange(link.FromTime, link.ToTime);
            Touch(link.From, range);
            Touch(link.To, range);
        }
    }

    public void Touch(Entity entity, TimeRange range)
    {
        // What has no start is without a time of its own, or has always been: it bears on everything.
        range = range.From == long.MinValue ? TimeRange.All : range;
        ref var known = ref CollectionsMarshal.GetValueRefOrAddDefault(_touched, entity, out var exists);
        known = exists ? Union(known, range) : range;
        if (IsFresh)
        {
            _fresh.Add(entity);
        }
    }

    /// <param name="since">First position of the commit.</param>
    public void Save(Position since)
    {
        session.Touch(_touched.Keys);
        var marked = new Dictionary<Entity, (TimeRange Range, bool IsFresh)>();
        var concerned = new HashSet<Entity>();
        foreach (var (entity, range) in _touched)
        {
            concerned.Clear();
            Scope.PatientsOf(entity, _links, concerned);
            AddWithoutPatient(entity, concerned);
            if (_alone.Contains(entity))
            {
                concerned.Add(entity);
            }

            foreach (var subject in concerned)
            {
                var isFresh = _fresh.Contains(entity);
                marked[subject] = marked.TryGetValue(subject, out var known) ? (Union(known.Range, range), known.IsFresh || isFresh) : (range, isFresh);
            }
        }

        foreach (var (subject, (range, isFresh)) in marked)
        {
            Mark(subject, since, range, isFresh);
        }
    }

    public void Mark(Entity subject, Position since, TimeRange range, bool isFresh) =>
        session.Database.Prepared(
            "INSERT INTO subjects (subject, since, affected_from, affected_to, fresh) VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT (subject) DO UPDATE SET "
            + "since = coalesce(since, ?2), affected_from = min(coalesce(affected_from, ?3), ?3), affected_to = max(coalesce(affected_to, ?4), ?4), fresh = max(fresh, ?5)")
        .Bind(1, subject.Packed).Bind(2, since.Value).Bind(3, range.From).Bind(4, range.To).Bind(5, isFresh ? 1 : 0)
        .Run();

    // Rows that lead to no patient are judged with the place or device they are about; and what was judged so before is looked
    // at again once a patient is found.
    private void AddWithoutPatient(Entity entity, HashSet<Entity> concerned)
    {
        if (entity.Kind is not (EntityKind.Place or EntityKind.Device or EntityKind.Metric))
        {
            return;
        }

        var withoutPatient = concerned.Count == 0;
        foreach (var about in Neighbours(entity))
        {
            if (withoutPatient ? HasRows(about) : WasJudged(about))
            {
                concerned.Add(about);
            }
        }
    }

    private IEnumerable<Entity> Neighbours(Entity entity)
    {
        var standing = _links.From(entity).Where(link => link.Kind is LinkKind.StandsAt or LinkKind.MetricOf).Select(link => link.To);
        var stoodOn = _links.To(entity).Where(link => link.Kind == LinkKind.StandsAt).Select(link => link.From);
        return standing.Concat(stoodOn).Append(entity).Where(one => one.Kind is EntityKind.Place or EntityKind.Device);
    }

    private bool HasRows(Entity about)
    {
        using var any = session.Database.Prepared("SELECT 1 FROM facts WHERE about = ?1 LIMIT 1");
        return any.Bind(1, about.Packed).Step();
    }

    private bool WasJudged(Entity subject)
    {
        using var known = session.Database.Prepared("SELECT 1 FROM subjects WHERE subject = ?1");
        return known.Bind(1, subject.Packed).Step();
    }

    private static TimeRange Union(TimeRange left, TimeRange right) => new(Math.Min(left.From, right.From), Math.Max(left.To, right.To));
}
