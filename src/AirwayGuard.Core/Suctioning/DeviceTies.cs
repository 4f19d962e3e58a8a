using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Who was tied to a device when, where nobody's use of it covers a time: the one whose pass or row named it last, while that stay lasts.
/// A timeline knows the stays of its own patient only, so that of another's tie it knows when it was and not whether it holds.
/// </summary>
internal sealed class DeviceTies
{
    private readonly List<(Entity Device, Entity Who, long At, Entity Encounter, bool IsOver)> _ties = [];
    private readonly List<(Entity Encounter, long From, long To)> _stays = [];

    /// <summary>Forgets the patient before and reads the stays of this one.</summary>
    /// <param name="patientOf">The patient of each encounter.</param>
    public void Begin(in Timeline timeline, Dictionary<Entity, Entity> patientOf)
    {
        _ties.Clear();
        _stays.Clear();
        foreach (ref readonly var period in timeline.Of(Concepts.EncounterPeriod))
        {
            if (patientOf.TryGetValue(period.About, out var patient) && patient == timeline.Patient)
            {
                _stays.Add((period.About, period.EffectiveFrom, period.EffectiveTo));
            }
        }
    }

    /// <summary>Someone's pass or row named the device at a time.</summary>
    /// <param name="who">A patient; of a pass that is not in this timeline, the act.</param>
    public void Name(Entity device, Entity who, long at, Entity encounter) => _ties.Add((device, who, at, encounter, false));

    /// <summary>A use of the device, or of its place, which tells whose it was within it only.</summary>
    public void Use(Entity device, Entity who, long from, long to)
    {
        if (from != long.MinValue)
        {
            _ties.Add((device, who, from, default, true));
        }

        if (to != long.MaxValue)
        {
            _ties.Add((device, who, to, default, true));
        }
    }

    /// <summary>Whose the device's row is at a time that no use covers.</summary>
    public Ownership Owner(Entity patient, Entity device, long at)
    {
        if (!TryNearest(device, at, out var nearest))
        {
            return patient.Kind == EntityKind.Patient ? Ownership.Others : Ownership.Unclear;
        }

        var (ours, others, holds) = (false, false, false);
        foreach (var tie in _ties)
        {
            if (tie.Device == device && tie.At == nearest)
            {
                ours |= tie.Who == patient;
                others |= tie.Who != patient;
                holds |= tie.Who == patient && Holds(tie.At, tie.Encounter, tie.IsOver, at);
            }
        }

        return ours ? (holds && !others ? Ownership.Ours : Ownership.Unclear)
            : IsNamedSoon(patient, device, at) ? Ownership.Unclear
            : Ownership.Others;
    }

    // The last at or before a time; where there is none, the first after it.
    private bool TryNearest(Entity device, long at, out long nearest)
    {
        var (before, after) = (long.MinValue, long.MaxValue);
        foreach (var tie in _ties)
        {
            if (tie.Device == device)
            {
                before = tie.At <= at ? Math.Max(before, tie.At) : before;
                after = tie.At > at ? Math.Min(after, tie.At) : after;
            }
        }

        nearest = before != long.MinValue ? before : after;
        return nearest != long.MaxValue;
    }

    private bool Holds(long named, Entity encounter, bool isOver, long at)
    {
        var (from, to) = (Math.Min(named, at), Math.Max(named, at));
        var isStayKnown = false;
        foreach (var stay in _stays)
        {
            if (encounter.IsNone ? stay.From <= named && named < stay.To : stay.Encounter == encounter)
            {
                isStayKnown = true;
                if (!isOver && stay.From <= from && to < stay.To)
                {
                    return true;
                }
            }
        }

        return !isOver && !isStayKnown && to - from <= CareTimes.NamingHolds;
    }

    // What another had last may have been made ready for this one's pass.
    private bool IsNamedSoon(Entity patient, Entity device, long at) =>
        _ties.Exists(tie => tie.Device == device && tie.Who == patient && !tie.IsOver && tie.At > at && tie.At - at <= CareTimes.VacuumCheckBefore);
}
