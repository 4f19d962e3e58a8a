using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Storage.Sql;

namespace AirwayGuard.Storage.Entities;

/// <summary>
/// The interner over the entities table. Names used lately are in memory, two generations of them, so that memory does not
/// grow with history; names not yet saved stay until the commit that first uses them. Safe for concurrent use.
/// </summary>
internal sealed class EntityStore : IEntityInterner, IDisposable
{
    private readonly Lock _gate = new();
    private readonly Database _database;
    private readonly bool _shared;
    private readonly int _capacity;
    private readonly int[] _newest = new int[16];
    private readonly NameMap _pending = new();
    private readonly Dictionary<Entity, string> _given = [];
    private readonly AbsentNames _absent = new(10_000);
    private NameMap _young = new();
    private NameMap _old = new();

    /// <param name="file">The database; this store keeps a connection of its own.</param>
    /// <param name="options">Where the ledger is shared each new name is saved at once, since others may give names in the same file.</param>
    public EntityStore(string file, SqliteLedgerOptions options)
    {
        _database = options.Shared ? Database.OpenWriter(file, options.WaitsForDisk) : Database.OpenReader(file);
        _shared = options.Shared;
        _capacity = options.NamesInMemory;
        for (var kind = 1; kind < 16; kind++)
        {
            _newest[kind] = NewestKey((EntityKind)kind);
        }
    }

    /// <inheritdoc />
    public Entity Intern(EntityKind kind, ReadOnlySpan<byte> utf8Name)
    {
        lock (_gate)
        {
            return (Find(kind, utf8Name) ?? Give(kind, utf8Name)).Entity;
        }
    }

    /// <summary>The entity of a name that has a number, saved or not; none is given.</summary>
    public bool TryFind(EntityKind kind, ReadOnlySpan<byte> utf8Name, out Entity entity)
    {
        lock (_gate)
        {
            var known = _absent.Contains(kind, utf8Name) ? null : Find(kind, utf8Name);
            if (known is null && !_shared)
            {
                _absent.Add(kind, utf8Name);
            }

            entity = known?.Entity ?? default;
            return known is not null;
        }
    }

    public string NameOf(Entity entity)
    {
        if (entity.IsNone)
        {
            return "";
        }

        lock (_gate)
        {
            return Find(entity).Name;
        }
    }

    public string IdentityOf(Entity entity)
    {
        if (entity.IsNone)
        {
            return "";
        }

        lock (_gate)
        {
            var known = Find(entity);
            if (known.Identity is null && _shared)
            {
                known.Identity = Load(entity)?.Identity;
            }

            if (known.Identity is null)
            {
                Settle(known, known.Name);
            }

            return known.Identity!;
        }
    }

    /// <summary>A version of the entity's resource carries this identifier; it becomes the identity if none was given before.</summary>
    public void Offer(Entity entity, string identifier)
    {
        lock (_gate)
        {
            var known = Find(entity);
            if (known.Identity is null)
            {
                Settle(known, identifier);
            }
        }
    }

    /// <summary>Moves to <paramref name="into"/> the entities among these whose names are not saved yet.</summary>
    public void PendingAmong(IEnumerable<Entity> used, ICollection<KnownEntity> into)
    {
        lock (_gate)
        {
            if (_pending.Count == 0)
            {
                return;
            }

            foreach (var entity in used)
            {
                if (_pending.Find(entity) is { } known)
                {
                    into.Add(known);
                }
            }
        }
    }

    public bool HasPending
    {
        get
        {
            lock (_gate)
            {
                return _pending.Count > 0;
            }
        }
    }

    /// <summary>The commit that saved these names is on disk.</summary>
    public void Saved(IEnumerable<KnownEntity> saved)
    {
        lock (_gate)
        {
            foreach (var known in saved)
            {
                if (_pending.Remove(known.Entity) is not null)
                {
                    Remember(known);
                }
            }
        }
    }

    /// <summary>Takes the identities given since the last commit, to be saved with this one; handed back if it fails.</summary>
    public KeyValuePair<Entity, string>[] TakeGiven()
    {
        lock (_gate)
        {
            if (_given.Count == 0)
            {
                return [];
            }

            var taken = _given.Where(g => _pending.Find(g.Key) is null).ToArray();
            foreach (var (entity, _) in taken)
            {
                _given.Remove(entity);
            }

            return taken;
        }
    }

    public void HandBack(IEnumerable<KeyValuePair<Entity, string>> given)
    {
        lock (_gate)
        {
            foreach (var (entity, identity) in given)
            {
                _given.TryAdd(entity, identity);
            }
        }
    }

    public void Dispose() => _database.Dispose();

    private void Settle(KnownEntity known, string identity)
    {
        known.Identity = identity;
        _given[known.Entity] = identity;
    }

    private KnownEntity? Find(EntityKind kind, ReadOnlySpan<byte> name)
    {
        if (_young.Find(kind, name) is { } young)
        {
            return young;
        }

        if (_old.Find(kind, name) is { } old)
        {
            Remember(old);
            return old;
        }

        return _pending.Find(kind, name) ?? Load(kind, name);
    }

    private KnownEntity Find(Entity entity) =>
        _young.Find(entity) ?? _old.Find(entity) ?? _pending.Find(entity) ?? Load(entity)
            ?? throw new ArgumentException($"No entity of kind {entity.Kind} has key {entity.Key} in this ledger.", nameof(entity));

    private KnownEntity? Load(EntityKind kind, ReadOnlySpan<byte> name)
    {
        using var found = _database.Prepared("SELECT entity, identity FROM entities WHERE kind = ?1 AND name = ?2");
        found.Bind(1, (long)kind).BindText(2, name);
        return found.Step() ? Remember(new KnownEntity(new Entity(found.Int(0)), name.ToArray(), found.TextOrNull(1))) : null;
    }

    private KnownEntity? Load(Entity entity)
    {
        using var found = _database.Prepared("SELECT name, identity FROM entities WHERE entity = ?1");
        found.Bind(1, entity.Packed);
        return found.Step() ? Remember(new KnownEntity(entity, Encoding.UTF8.GetBytes(found.Text(0)), found.TextOrNull(1))) : null;
    }

    private KnownEntity Remember(KnownEntity known)
    {
        known.Identity ??= _given.GetValueOrDefault(known.Entity);
        if (_young.Count >= _capacity)
        {
            _old = _young;
            _young = new NameMap();
        }

        _young.Add(known);
        return known;
    }

    private KnownEntity Give(EntityKind kind, ReadOnlySpan<byte> name)
    {
        if (_shared)
        {
            return GiveAtOnce(kind, name);
        }

        var known = new KnownEntity(new Entity(kind, ++_newest[(int)kind]), name.ToArray(), null);
        _absent.Remove(kind, name);
        _pending.Add(known);
        return known;
    }

    private KnownEntity GiveAtOnce(EntityKind kind, ReadOnlySpan<byte> name)
    {
        _database.Execute("BEGIN IMMEDIATE");
        try
        {
            var known = Load(kind, name);
            if (known is null)
            {
                known = new KnownEntity(new Entity(kind, NewestKey(kind) + 1), name.ToArray(), null);
                Save(_database, known, 0);
            }

            _database.Execute("COMMIT");
            return Remember(known);
        }
        catch
        {
            _database.Execute("ROLLBACK");
            throw;
        }
    }

    /// <param name="firstKnown">Position at which the entity is first spoken of; 0 where that is not known yet.</param>
    public static void Save(Database database, KnownEntity known, long firstKnown)
    {
        var save = database.Prepared("INSERT INTO entities (entity, kind, name, identity, first_known) VALUES (?1, ?2, ?3, ?4, ?5) ON CONFLICT (entity) DO NOTHING");
        save.Bind(1, known.Entity.Packed).Bind(2, (long)known.Entity.Kind).BindText(3, known.Utf8Name).Bind(4, known.Identity).Bind(5, firstKnown).Run();
    }

    private int NewestKey(EntityKind kind)
    {
        using var newest = _database.Prepared("SELECT max(entity) FROM entities WHERE entity BETWEEN ?1 AND ?2");
        newest.Bind(1, new Entity(kind, 1).Packed).Bind(2, new Entity(kind, Entity.MaxKey).Packed);
        return newest.Step() && !newest.IsNull(0) ? new Entity(newest.Int(0)).Key : 0;
    }
}
