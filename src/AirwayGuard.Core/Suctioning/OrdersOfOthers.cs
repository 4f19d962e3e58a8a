using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>Ties to another patient's order, which are none: each is judged for its own patient, and the tie is told.</summary>
internal static class OrdersOfOthers
{
    public static void Tell(in Timeline timeline, IEntityNames names, Care care)
    {
        HashSet<Entity>? others = null;
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.OrderFor && link.To != timeline.Patient)
            {
                (others ??= []).Add(link.From);
            }
        }

        if (others is null)
        {
            return;
        }

        var own = new HashSet<Entity>();
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind is LinkKind.OrderFor or LinkKind.DoneTo && link.To == timeline.Patient)
            {
                own.Add(link.From);
            }
        }

        others.ExceptWith(own);
        foreach (var from in Tied(timeline, names, own, others))
        {
            care.ProblemList.Add((Diagnostics.Codes.OrderOfAnotherPatient, from));
        }
    }

    // Of a number that is shared the equipment is told, as that alone would have become part of the order.
    private static HashSet<Entity> Tied(in Timeline timeline, IEntityNames names, HashSet<Entity> own, HashSet<Entity> others)
    {
        var (tied, groups) = (new HashSet<Entity>(), new HashSet<Entity>());
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind is LinkKind.BasedOn or LinkKind.Replaces && own.Contains(link.From) && others.Contains(link.To))
            {
                tied.Add(link.From);
            }
            else if (link.Kind == LinkKind.GroupedBy && others.Contains(link.From) && IsService(names, link.From))
            {
                groups.Add(link.To);
            }
        }

        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.GroupedBy && own.Contains(link.From) && groups.Contains(link.To) && !IsService(names, link.From))
            {
                tied.Add(link.From);
            }
        }

        return tied;
    }

    private static bool IsService(IEntityNames names, Entity order) => names.NameOf(order).StartsWith("ServiceRequest/", StringComparison.Ordinal);
}
