using System.Text;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Questions;

/// <summary>
/// The entities of one question. Those the ledger knows keep their numbers; what only the question names gets one above all that a
/// ledger has given, and is forgotten with it: asking leaves no trace. Not safe for concurrent use.
/// </summary>
/// <param name="known">Null where nobody followed is asked about.</param>
public sealed class QuestionEntities(IKnownEntities? known) : IEntityInterner, IEntityNames
{
    // A ledger of so many entities of one kind is none we could serve; the numbers above are the question's.
    private const int First = Entity.MaxKey - 1_000_000;

    private readonly Dictionary<(EntityKind Kind, string Name), Entity> _byName = [];
    private readonly Dictionary<Entity, string> _names = [];
    private readonly Dictionary<Entity, string> _identities = [];

    /// <inheritdoc />
    public Entity Intern(EntityKind kind, ReadOnlySpan<byte> utf8Name)
    {
        // Its own first: a name the ledger does not have is looked for in the file each time it is asked for.
        var name = Encoding.UTF8.GetString(utf8Name);
        if (_byName.TryGetValue((kind, name), out var entity) || (known is not null && known.TryFind(kind, utf8Name, out entity)))
        {
            return entity;
        }

        entity = new Entity(kind, First + _names.Count);
        _byName.Add((kind, name), entity);
        _names.Add(entity, name);
        return entity;
    }

    /// <summary>Whether the number is the question's own.</summary>
    public bool IsNew(Entity entity) => _names.ContainsKey(entity);

    /// <summary>Notes the first business identifier of an entity that only the question names.</summary>
    public void Identify(Entity entity, string identifier)
    {
        if (identifier.Length > 0 && IsNew(entity))
        {
            _identities.TryAdd(entity, identifier);
        }
    }

    /// <inheritdoc />
    public string NameOf(Entity entity) => entity.IsNone ? "" : _names.TryGetValue(entity, out var name) ? name : known?.NameOf(entity) ?? "";

    /// <inheritdoc />
    public string IdentityOf(Entity entity) =>
        _identities.TryGetValue(entity, out var identity) ? identity
        : _names.TryGetValue(entity, out var name) ? name
        : entity.IsNone ? "" : known?.IdentityOf(entity) ?? "";
}
