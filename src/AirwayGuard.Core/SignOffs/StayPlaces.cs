using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.SignOffs;

/// <summary>Where somebody is, as charting names it: what a sign-off for a unit goes by.</summary>
public static class StayPlaces
{
    /// <summary>
    /// Of a patient the places of the stays that go on at a time, or, where none does, of the latest; of a regulator where it stands, of an
    /// outlet its place. None where no place is charted: then only what is signed off for all units speaks.
    /// </summary>
    /// <param name="ticks">UTC ticks.</param>
    public static IReadOnlyCollection<string> Of(in Timeline timeline, Entity subject, IEntityNames names, long ticks)
    {
        // Others' stays at the same place are on the timeline too.
        var stays = new HashSet<Entity>();
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.EncounterOf && link.To == subject)
            {
                stays.Add(link.From);
            }
        }

        var (now, latest, latestFrom) = (new List<string>(), new List<string>(), long.MinValue);
        foreach (ref readonly var link in timeline.Links)
        {
            var isOurs = (link.Kind == LinkKind.TakesPlaceAt && stays.Contains(link.From)) || (link.Kind == LinkKind.StandsAt && link.From == subject);
            if (!isOurs)
            {
                continue;
            }

            var name = names.NameOf(link.To);
            if (link.HoldsAt(ticks))
            {
                now.Add(name);
            }

            if (link.FromTime > latestFrom)
            {
                latest.Clear();
                latestFrom = link.FromTime;
            }

            if (link.FromTime == latestFrom)
            {
                latest.Add(name);
            }
        }

        return subject.Kind == EntityKind.Place ? [names.NameOf(subject)] : now.Count > 0 ? now : latest;
    }
}
