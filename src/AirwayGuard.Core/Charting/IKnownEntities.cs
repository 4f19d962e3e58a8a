using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Charting;

/// <summary>Entities that have a number, found by name; asking gives none.</summary>
public interface IKnownEntities : IEntityNames
{
    /// <summary>The entity of a name, where it was given a number before; none is given.</summary>
    bool TryFind(EntityKind kind, ReadOnlySpan<byte> utf8Name, out Entity entity);
}
