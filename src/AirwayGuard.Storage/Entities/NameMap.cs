using AirwayGuard.Core.Charting;

namespace AirwayGuard.Storage.Entities;

/// <summary>Entities by name and by key.</summary>
internal sealed class NameMap
{
    private readonly Dictionary<byte[], KnownEntity>[] _byName = new Dictionary<byte[], KnownEntity>[16];
    private readonly Dictionary<Entity, KnownEntity> _byKey = [];

    public int Count => _byKey.Count;

    public KnownEntity? Find(EntityKind kind, ReadOnlySpan<byte> name) =>
        _byName[(int)kind] is { } names && names.GetAlternateLookup<ReadOnlySpan<byte>>().TryGetValue(name, out var known) ? known : null;

    public KnownEntity? Find(Entity entity) => _byKey.GetValueOrDefault(entity);

    public void Add(KnownEntity known)
    {
        var names = _byName[(int)known.Entity.Kind] ??= new Dictionary<byte[], KnownEntity>(Utf8Comparer.Instance);
        names[known.Utf8Name] = known;
        _byKey[known.Entity] = known;
    }

    public KnownEntity? Remove(Entity entity)
    {
        if (_byKey.Remove(entity, out var known))
        {
            _byName[(int)entity.Kind].Remove(known.Utf8Name);
        }

        return known;
    }
}
