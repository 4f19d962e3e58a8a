using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What is on the table while orders are put together; kept from patient to patient.</summary>
internal sealed class OrderWork
{
    /// <summary>The intent of each order, as an answer's index.</summary>
    public Dictionary<Entity, int> Intents { get; } = [];

    /// <summary>The group each order was placed in.</summary>
    public Dictionary<Entity, Entity> Groups { get; } = [];

    /// <summary>The status fact of each order that is judged, by time then name.</summary>
    public List<Fact> Judged { get; } = [];

    /// <summary>Of these, the service requests.</summary>
    public HashSet<Entity> Services { get; } = [];

    /// <summary>Of these, the ones that forbid suction, or may.</summary>
    public HashSet<Entity> Forbidding { get; } = [];

    /// <summary>
    /// Service requests whose equipment is not judged either: on hold, or of another suction, of which only the patient is kept. One that is ended, a
    /// draft or entered in error holds nothing of what is active.
    /// </summary>
    public HashSet<Entity> Keeping { get; } = [];

    /// <summary>The order that each one's facts belong to.</summary>
    public Dictionary<Entity, Entity> Owners { get; } = [];

    /// <summary>What each order or request says of itself that is to be suctioned, as <see cref="SuctionUse"/> gives it.</summary>
    public Dictionary<Entity, int> Uses { get; } = [];

    /// <summary>What the order as a whole says, with the requests whose facts belong to it.</summary>
    public int UseOf(Entity order)
    {
        var use = 0;
        foreach (var (part, said) in Uses)
        {
            use = Owners.TryGetValue(part, out var owner) && owner == order ? SuctionUse.Together(use, said) : use;
        }

        return use;
    }

    public void Clear()
    {
        Uses.Clear();
        Intents.Clear();
        Groups.Clear();
        Judged.Clear();
        Services.Clear();
        Forbidding.Clear();
        Keeping.Clear();
        Owners.Clear();
    }
}
