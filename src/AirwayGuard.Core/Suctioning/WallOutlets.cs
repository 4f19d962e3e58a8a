using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>What an outlet's own timeline tells of it: its last full-line reading, where it is, and which regulators are on it.</summary>
public static class WallOutlets
{
    /// <summary>Whether a fact makes what it is about an outlet: a full-line row of a place or device, or a device of that kind.</summary>
    public static bool IsTold(in Fact fact) => fact.About.Kind is EntityKind.Place or EntityKind.Device
        && (fact.Concept == Concepts.FullLineVacuum || (fact.Concept == Concepts.DeviceKind && fact.Value.Kind == ValueKind.Code && fact.Value.Symbol == Answers.WallVacuumOutlet));

    /// <summary>The last full-line reading of the outlet; of one instant the weakest. A row that could not be read is none.</summary>
    /// <returns>Index of the fact; −1 where it was never read.</returns>
    public static int LastReading(in Timeline timeline)
    {
        var facts = timeline.Of(Concepts.FullLineVacuum);
        var last = -1;
        for (var i = facts.Length - 1; i >= 0 && (last < 0 || facts[i].EffectiveFrom == facts[last].EffectiveFrom); i--)
        {
            if (facts[i].About == timeline.Patient && !facts[i].Has(FactMarks.Timeless) && facts[i].Value.IsNumber
                && (last < 0 || Depth(facts[i].Value) < Depth(facts[last].Value)))
            {
                last = i;
            }
        }

        return last < 0 ? -1 : timeline.FirstOf(Concepts.FullLineVacuum) + last;
    }

    /// <summary>The Location it is, or where its Device stands, as told last; none where nobody says.</summary>
    public static Entity PlaceOf(in Timeline timeline)
    {
        var (place, told) = (default(Entity), default(Position));
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.StandsAt && link.From == timeline.Patient && (place.IsNone || link.Id.Arrival > told))
            {
                (place, told) = (link.To, link.Id.Arrival);
            }
        }

        return timeline.Patient.Kind == EntityKind.Place ? timeline.Patient : place;
    }

    /// <summary>The regulator that the reading names, else those that stand at the outlet's place.</summary>
    /// <param name="reading">Index of the reading; −1 for none.</param>
    /// <param name="named">True where the reading names it.</param>
    public static IReadOnlyList<Entity> Regulators(in Timeline timeline, int reading, out bool named)
    {
        named = false;
        if (reading >= 0 && DeviceOf(timeline, timeline.Facts[reading].Device) is { IsNone: false } device && device != timeline.Patient
            && KindOf(timeline, device) is var kind && (kind == 0 || kind == Answers.VacuumRegulator))
        {
            named = true;
            return [device];
        }

        var (place, found) = (PlaceOf(timeline), new List<Entity>());
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.StandsAt && link.To == place && !place.IsNone && KindOf(timeline, link.From) == Answers.VacuumRegulator && !found.Contains(link.From))
            {
                found.Add(link.From);
            }
        }

        return found;
    }

    private static decimal Depth(in FactValue value) => Units.IsPressure(value.Unit) ? Vacuum.ToMmHg(value.Amount, value.Unit) : value.Magnitude;

    private static Entity DeviceOf(in Timeline timeline, Entity deviceOrMetric)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.MetricOf && link.From == deviceOrMetric)
            {
                return link.To;
            }
        }

        return deviceOrMetric.Kind == EntityKind.Device ? deviceOrMetric : default;
    }

    private static int KindOf(in Timeline timeline, Entity device)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.DeviceKind))
        {
            if (fact.About == device && fact.Value.Kind == ValueKind.Code)
            {
                return fact.Value.Symbol;
            }
        }

        return 0;
    }
}
