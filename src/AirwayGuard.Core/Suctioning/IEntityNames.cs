using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Gives an entity's name back (<c>Type/id</c>): ties are broken by it, so that they do not hang on the order of arrival.</summary>
public interface IEntityNames
{
    /// <summary>The name it was interned under (<c>Type/id</c>); empty for none.</summary>
    string NameOf(Entity entity);

    /// <summary>
    /// What stands for it in keys: the first business identifier (<c>system|value</c>) that a version of its resource carried, else its
    /// name. In a ledger it never changes once given, also where an identifier comes to light afterwards.
    /// </summary>
    string IdentityOf(Entity entity);
}
