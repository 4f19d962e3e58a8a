using AirwayGuard.Core.Ports;

namespace AirwayGuard.Core.Charting;

/// <summary>
/// Facts and links in memory, with the same rules as a ledger: positions in order of arrival, later versions supersede earlier
/// ones, and what is loaded is what was known at a position. Not safe for concurrent use.
/// </summary>
public sealed class MemoryChart : ILinkSource
{
    private readonly Dictionary<Entity, List<Fact>> _facts = [];
    private readonly Dictionary<Entity, List<Link>> _from = [];
    private readonly Dictionary<Entity, List<Link>> _to = [];
    private readonly Dictionary<Entity, Position> _rowKnown = [];
    private readonly Dictionary<Entity, (List<(Entity About, int Index)> Facts, List<(bool IsFrom, Entity End, int Index)> Links)> _standing = [];
    private readonly HashSet<Entity> _patients = [];
    private Position _asKnownAt = Position.Never;

    /// <summary>Newest position; 0 while empty.</summary>
    public Position Newest { get; private set; }

    /// <summary>Patients that any fact or link names.</summary>
    public IReadOnlyCollection<Entity> Patients => _patients;

    /// <summary>Keeps arrivals as known together, in order; each supersedes what its resource said before.</summary>
    /// <returns>The position of each.</returns>
    public IReadOnlyList<Position> Keep(IReadOnlyList<ReadArrival> arrivals)
    {
        var positions = new Position[arrivals.Count];
        var together = new Position(Newest.Value + 1);
        for (var i = 0; i < arrivals.Count; i++)
        {
            Newest = new Position(Newest.Value + 1);
            positions[i] = Newest;
            Keep(arrivals[i].Reading, Newest, together);
        }

        return positions;
    }

    /// <summary>A patient's timeline as known at a position.</summary>
    public TimelineLease Load(Entity patient, Position asKnownAt)
    {
        _asKnownAt = asKnownAt;
        var (entities, links) = (new HashSet<Entity>(), new List<Link>());
        Scope.OfPatient(patient, this, entities, links);
        _asKnownAt = Position.Never;
        var facts = new List<Fact>();
        foreach (var entity in entities)
        {
            if (_facts.TryGetValue(entity, out var about))
            {
                facts.AddRange(about.Where(fact => fact.IsKnownAt(asKnownAt)));
            }
        }

        var sorted = facts.ToArray();
        var start = FactOrder.SortAndIndex(sorted);
        return new TimelineLease(patient, sorted, sorted.Length, start, [.. links], links.Count, asKnownAt, isRented: false);
    }

    /// <summary>
    /// Devices and places with rows that lead to no patient; and outlets and regulators, which are judged by themselves also where
    /// patients are known.
    /// </summary>
    public IEnumerable<Entity> Orphans()
    {
        foreach (var entity in _facts.Keys.Where(entity => entity.Kind is EntityKind.Device or EntityKind.Place))
        {
            var patients = new HashSet<Entity>();
            Scope.PatientsOf(entity, this, patients);
            if (patients.Count == 0 || _facts[entity].Exists(fact => fact.IsJudgedAlone && fact.KnownUntil == Position.Never))
            {
                yield return entity;
            }
        }
    }

    public IEnumerable<Link> From(Entity entity) => Known(_from, entity);

    public IEnumerable<Link> To(Entity entity) => Known(_to, entity);

    private IEnumerable<Link> Known(Dictionary<Entity, List<Link>> links, Entity entity) =>
        links.TryGetValue(entity, out var list)
            ? list.Where(link => _asKnownAt == Position.Never ? link.KnownUntil == Position.Never : link.IsKnownAt(_asKnownAt))
            : [];

    private void Keep(Reading reading, Position position, Position together)
    {
        if (!reading.Self.IsNone)
        {
            _rowKnown.TryAdd(reading.Self, together);
            Supersede(reading.Self, position);
        }

        var standing = reading.Self.IsNone ? default : _standing[reading.Self] = ([], []);
        foreach (var read in reading.Facts)
        {
            var fact = read with { Id = new FactId(position, read.Id.Ordinal), RowKnown = _rowKnown.GetValueOrDefault(reading.Self, together), KnownUntil = Position.Never };
            var list = ListOf(_facts, fact.About);
            standing.Facts?.Add((fact.About, list.Count));
            list.Add(fact);
            Note(fact.About);
        }

        foreach (var read in reading.Links)
        {
            var link = read with { Id = new FactId(position, read.Id.Ordinal), RowKnown = _rowKnown.GetValueOrDefault(reading.Self, together), KnownUntil = Position.Never };
            Add(_from, link.From, link, true, standing.Links);
            Add(_to, link.To, link, false, standing.Links);
            Note(link.From);
            Note(link.To);
        }
    }

    private static void Add(Dictionary<Entity, List<Link>> index, Entity end, in Link link, bool isFrom, List<(bool, Entity, int)>? standing)
    {
        var list = ListOf(index, end);
        standing?.Add((isFrom, end, list.Count));
        list.Add(link);
    }

    private void Supersede(Entity row, Position position)
    {
        if (!_standing.Remove(row, out var standing))
        {
            return;
        }

        foreach (var (about, index) in standing.Facts)
        {
            _facts[about][index] = _facts[about][index] with { KnownUntil = position };
        }

        foreach (var (isFrom, end, index) in standing.Links)
        {
            var list = (isFrom ? _from : _to)[end];
            list[index] = list[index] with { KnownUntil = position };
        }
    }

    private void Note(Entity entity)
    {
        if (entity.Kind == EntityKind.Patient)
        {
            _patients.Add(entity);
        }
    }

    private static List<T> ListOf<T>(Dictionary<Entity, List<T>> index, Entity key)
    {
        if (!index.TryGetValue(key, out var list))
        {
            index[key] = list = [];
        }

        return list;
    }
}
