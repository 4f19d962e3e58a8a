namespace AirwayGuard.Core.Charting;

/// <summary>Gives each entity its small number. Keys grow in the order in which entities became known and never change.</summary>
public interface IEntityInterner
{
    /// <summary>The entity of a name: <c>Type/id</c> for resources, <c>system|code</c> for row codes, any text for group keys.</summary>
    Entity Intern(EntityKind kind, ReadOnlySpan<byte> utf8Name);
}
