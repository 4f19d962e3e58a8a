using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Gives an entity's name back (<c>Type/id</c>): ties are broken by it, so that they do not hang on the order of arrival.</summary>
public interface IEntityNames
{
    string NameOf(Entity entity);

    /// <summary>What stands for it in keys: its first business identifier (<c>system|value</c>), else its name.</summary>
    string IdentityOf(Entity entity);
}
