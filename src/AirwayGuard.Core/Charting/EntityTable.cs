using System.Text;

namespace AirwayGuard.Core.Charting;

/// <summary>Entities in memory: interns names and gives them back. Not safe for concurrent use.</summary>
public sealed class EntityTable : IEntityInterner, Suctioning.IEntityNames
{
    private readonly Dictionary<(EntityKind Kind, string Name), Entity> _byName = [];
    private readonly Dictionary<Entity, string> _names = [];
    private readonly Dictionary<Entity, string> _identities = [];
    private readonly int[] _next = new int[16];

    /// <inheritdoc />
    public Entity Intern(EntityKind kind, ReadOnlySpan<byte> utf8Name) => Intern(kind, Encoding.UTF8.GetString(utf8Name));

    public Entity Intern(EntityKind kind, string name)
    {
        if (_byName.TryGetValue((kind, name), out var known))
        {
            return known;
        }

        var entity = new Entity(kind, ++_next[(int)kind]);
        _byName.Add((kind, name), entity);
        _names.Add(entity, name);
        return entity;
    }

    /// <summary>The name an entity was interned under; empty for none.</summary>
    public string NameOf(Entity entity) => entity.IsNone ? "" : _names[entity];

    /// <inheritdoc />
    public string IdentityOf(Entity entity) => _identities.TryGetValue(entity, out var identity) ? identity : NameOf(entity);

    /// <summary>Notes the first business identifier of an entity's resource; a later one changes nothing.</summary>
    public void Identify(Entity entity, string identifier)
    {
        if (!entity.IsNone && identifier.Length > 0)
        {
            _identities.TryAdd(entity, identifier);
        }
    }

    public bool TryFind(EntityKind kind, string name, out Entity entity) => _byName.TryGetValue((kind, name), out entity);
}
