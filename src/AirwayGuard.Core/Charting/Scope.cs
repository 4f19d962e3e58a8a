namespace AirwayGuard.Core.Charting;

/// <summary>Links by either end, as known at one position. A store and the memory of a single run both offer this.</summary>
public interface ILinkSource
{
    IEnumerable<Link> From(Entity entity);

    IEnumerable<Link> To(Entity entity);
}

/// <summary>
/// Whose facts belong to a patient's timeline, and which patients a fact about something else concerns. Both are the same
/// walk over links; it never passes through another patient.
/// </summary>
public static class Scope
{
    /// <summary>The patient and everything linked to the patient then or now. Other patients at the same place are named by links only.</summary>
    /// <param name="entities">Filled with the entities whose facts are read.</param>
    /// <param name="links">Filled with every link that touches them.</param>
    public static void OfPatient(Entity patient, ILinkSource source, ISet<Entity> entities, ICollection<Link> links)
    {
        var seen = new HashSet<(FactId, LinkKind, Entity, Entity)>();
        var waiting = new Queue<(Entity Entity, int Depth)>();
        entities.Add(patient);
        waiting.Enqueue((patient, 0));
        while (waiting.TryDequeue(out var next))
        {
            foreach (var link in source.From(next.Entity).Concat(source.To(next.Entity)))
            {
                if (!seen.Add((link.Id, link.Kind, link.From, link.To)))
                {
                    continue;
                }

                links.Add(link);
                var other = link.From == next.Entity ? link.To : link.From;
                if (Leads(link.Kind, next.Entity.Kind, other.Kind) && next.Depth < MaxDepth && entities.Add(other))
                {
                    waiting.Enqueue((other, next.Depth + 1));
                }
                else if (patient.Kind == EntityKind.Device && next.Entity == patient && link.Kind == LinkKind.Uses && entities.Add(other))
                {
                    // Of the acts that used a device only its own timeline needs to know whose they were.
                    waiting.Enqueue((other, MaxDepth));
                }
            }
        }

        LeaveOrdersOfOthers(patient, entities, links);
    }

    // A number shared with it, or a reference to it, makes no order of one patient another's. Its links stay, so that it can be told.
    private static void LeaveOrdersOfOthers(Entity patient, ISet<Entity> entities, ICollection<Link> links)
    {
        HashSet<Entity>? others = null;
        foreach (var link in links)
        {
            if (patient.Kind == EntityKind.Patient && link.Kind == LinkKind.OrderFor && link.To != patient)
            {
                (others ??= []).Add(link.From);
            }
        }

        if (others is null)
        {
            return;
        }

        foreach (var link in links)
        {
            if (link.Kind == LinkKind.OrderFor && link.To == patient)
            {
                others.Remove(link.From);
            }
        }

        entities.ExceptWith(others);
    }

    /// <summary>The patients whose timelines a fact about, or a link of, this entity belongs to.</summary>
    public static void PatientsOf(Entity entity, ILinkSource source, ISet<Entity> patients)
    {
        var seen = new HashSet<Entity> { entity };
        var waiting = new Queue<(Entity Entity, int Depth)>();
        waiting.Enqueue((entity, 0));
        while (waiting.TryDequeue(out var next))
        {
            if (next.Entity.Kind == EntityKind.Patient)
            {
                patients.Add(next.Entity);
                continue;
            }

            if (next.Depth >= MaxDepth)
            {
                continue;
            }

            foreach (var link in source.From(next.Entity).Concat(source.To(next.Entity)))
            {
                var other = link.From == next.Entity ? link.To : link.From;
                if ((Leads(link.Kind, other.Kind, next.Entity.Kind) || other.Kind == EntityKind.Patient) && seen.Add(other))
                {
                    waiting.Enqueue((other, next.Depth + 1));
                }
            }
        }
    }

    private const int MaxDepth = 5;

    // Towards what a patient's care touches, never from one patient to another, and from a place only to what stands or lies there.
    private static bool Leads(LinkKind kind, EntityKind from, EntityKind to) => to != EntityKind.Patient && kind switch
    {
        LinkKind.EncounterOf => from == EntityKind.Patient,
        LinkKind.UsedBy or LinkKind.NamedWith or LinkKind.DoneTo or LinkKind.OrderFor or LinkKind.PanelOf => from == EntityKind.Patient,
        LinkKind.TakesPlaceAt => true,
        LinkKind.StandsAt => true,
        LinkKind.MetricOf => true,
        LinkKind.Uses => from == EntityKind.Act,
        LinkKind.BasedOn or LinkKind.Replaces or LinkKind.GroupedBy => from is EntityKind.Act or EntityKind.Order or EntityKind.GroupKey,
        LinkKind.PartOf => from == EntityKind.Act,
        _ => false,
    };
}
