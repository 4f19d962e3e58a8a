using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Measures;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>How a regulator was last charted to stand: set value and mode hold until changed, at most 12 h.</summary>
public static class RegulatorStates
{
    /// <summary>Patients whose rows or passes name the regulator in the 12 h before, or who use it: their charts may tell how it stands.</summary>
    /// <param name="timeline">Of the regulator itself.</param>
    public static IReadOnlyList<Entity> Namers(in Timeline timeline, long asOf)
    {
        var (found, acts) = (new List<Entity>(), new HashSet<Entity>());
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.Uses && link.To == timeline.Patient && IsLate(link, asOf))
            {
                acts.Add(link.From);
            }
        }

        foreach (ref readonly var link in timeline.Links)
        {
            var isNamer = link.Kind switch
            {
                LinkKind.NamedWith => IsLate(link, asOf) && (link.From == timeline.Patient || IsMetricOf(timeline, link.From)),
                LinkKind.UsedBy => link.From == timeline.Patient && link.HoldsAt(asOf),
                LinkKind.DoneTo => acts.Contains(link.From),
                _ => false,
            };
            if (isNamer && link.To.Kind == EntityKind.Patient && !found.Contains(link.To))
            {
                found.Add(link.To);
            }
        }

        return found;
    }

    /// <summary>The last set value and the last mode of a regulator in a timeline, of the 12 h before.</summary>
    /// <param name="timeline">Of the regulator, or of a patient whose rows name it.</param>
    /// <param name="care">Assembled from the timeline.</param>
    /// <returns>Nothing where none is charted.</returns>
    public static (Fact? Set, Fact? Mode) Last(in Timeline timeline, Care care, Entity regulator, long asOf) =>
        (Newer(Last(timeline, care, regulator, Concepts.VacuumSet, asOf), Last(timeline, care, regulator, Concepts.VacuumPressure, asOf)), Last(timeline, care, regulator, Concepts.RegulatorMode, asOf));

    /// <summary>The one that is of a later time.</summary>
    public static Fact? Newer(Fact? one, Fact? other) =>
        one is not { } first ? other : other is not { } second ? one : second.EffectiveFrom > first.EffectiveFrom ? other : one;

    private static Fact? Last(in Timeline timeline, Care care, Entity regulator, Concept concept, long asOf)
    {
        var facts = timeline.Of(concept);
        for (var i = Timeline.FirstAfter(facts, asOf) - 1; i >= 0 && facts[i].EffectiveFrom > asOf - CareTimes.ModeHolds; i--)
        {
            if (RegulatorOwners.RegulatorOf(facts[i], care, timeline.FirstOf(concept) + i) == regulator
                && (concept == Concepts.RegulatorMode ? facts[i].Value.Kind == ValueKind.Code : facts[i].Value.IsNumber && SetValues.IsSet(care, facts[i])))
            {
                return facts[i];
            }
        }

        return null;
    }

    private static bool IsLate(in Link link, long asOf) => link.FromTime <= asOf && link.FromTime > asOf - CareTimes.ModeHolds;

    private static bool IsMetricOf(in Timeline timeline, Entity metric)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.MetricOf && link.From == metric && link.To == timeline.Patient)
            {
                return true;
            }
        }

        return false;
    }
}
