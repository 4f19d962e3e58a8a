using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

internal enum Ownership : byte
{
    Ours, Others, Unclear,
}

/// <summary>
/// Which regulator a row names, and whose a device's or place's row is at its time: the patient the device is in use by, or the
/// one whose encounter is at its place, else the one whose pass or row named it last. Two candidates are unclear.
/// </summary>
internal sealed class RegulatorOwners
{
    private readonly List<(Entity Device, Entity Patient, long From, long To)> _claims = [];
    private readonly HashSet<(Entity Patient, Entity Device)> _namedByPass = [];
    private readonly Dictionary<Entity, Entity> _patientOf = [];
    private readonly Dictionary<Entity, Entity> _actsOf = [];
    private readonly List<Link> _placesOf = [];
    private readonly HashSet<(Entity Who, Entity Device)> _namers = [];
    private readonly HashSet<Entity> _usedInPasses = [];
    private readonly DeviceTies _ties = new();

    /// <summary>Forgets the patient before and reads who claims which device.</summary>
    public void Read(in Timeline timeline, Care care)
    {
        Clear();
        foreach (ref readonly var link in timeline.Links)
        {
            switch (link.Kind)
            {
                case LinkKind.EncounterOf:
                    _patientOf[link.From] = link.To;
                    break;
                case LinkKind.TakesPlaceAt:
                    _placesOf.Add(link);
                    break;
                case LinkKind.DoneTo:
                    _actsOf[link.From] = link.To;
                    break;
                case LinkKind.NamedWith:
                    _namers.Add((link.To, DeviceOf(care, link.From)));
                    break;
                case LinkKind.UsedBy:
                    _claims.Add((link.From, link.To, link.FromTime, link.ToTime));
                    break;
                default:
                    break;
            }
        }

        _ties.Begin(timeline, _patientOf);
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.NamedWith)
            {
                _ties.Name(DeviceOf(care, link.From), link.To, link.FromTime, default);
            }
            else if (link.Kind == LinkKind.Uses)
            {
                var isKnown = _actsOf.TryGetValue(link.From, out var patient);
                _usedInPasses.Add(link.To);

                // A pass that this timeline does not hold is another patient's.
                _namers.Add((isKnown ? patient : link.From, link.To));
                _ties.Name(link.To, isKnown ? patient : link.From, link.FromTime, EncounterOf(timeline, link.From));
                if (isKnown)
                {
                    _namedByPass.Add((patient, link.To));
                }
            }
            else if (link.Kind == LinkKind.StandsAt)
            {
                Claim(link);
            }
        }

        foreach (var place in _placesOf)
        {
            if (_patientOf.TryGetValue(place.From, out var patient))
            {
                _claims.Add((place.To, patient, place.FromTime, place.ToTime));
            }
        }

        NameByRows(timeline, care);
        foreach (var claim in _claims)
        {
            _ties.Use(claim.Device, claim.Patient, claim.From, claim.To);
        }
    }

    /// <summary>The regulator a row names: its device, its metric's device, its subject, or the one its pass used.</summary>
    public static Entity RegulatorOf(in Fact fact, Care care, int factIndex)
    {
        var device = DeviceOf(care, fact.Device);
        if (device.Kind == EntityKind.Device && IsRegulator(care, device))
        {
            return device;
        }

        if (fact.About.Kind == EntityKind.Device && IsRegulator(care, fact.About))
        {
            return fact.About;
        }

        var pass = care.PassOf(factIndex);
        return pass >= 0 ? care.PassList[pass].Regulator : default;
    }

    public bool IsNamedByAPass(Entity patient, Entity regulator) => !regulator.IsNone && _namedByPass.Contains((patient, regulator));

    public Ownership Owner(Entity patient, in Fact fact)
    {
        var (ours, others) = (false, false);
        foreach (var claim in _claims)
        {
            if (claim.Device == fact.About && claim.From <= fact.EffectiveFrom && fact.EffectiveFrom < claim.To)
            {
                ours |= claim.Patient == patient;
                others |= claim.Patient != patient;
            }
        }

        if (!ours && !others)
        {
            return _ties.Owner(patient, fact.About, fact.EffectiveFrom);
        }

        if (!ours)
        {
            // A timeline without a patient is the device's own: nobody else judges its rows.
            return others || patient.Kind == EntityKind.Patient ? Ownership.Others : Ownership.Unclear;
        }

        return others ? Ownership.Unclear : Ownership.Ours;
    }

    /// <summary>A pass used the device.</summary>
    public bool IsUsedInAPass(Entity device) => _usedInPasses.Contains(device);

    /// <summary>Some patient is tied to the device, now or then.</summary>
    public bool HasPatient(Entity device) => _claims.Exists(claim => claim.Device == device) || _namers.Any(namer => namer.Device == device);

    /// <summary>
    /// When what falls due of a device is this timeline's: the patient's it is then in use by; where nobody's is known, the only
    /// patient's whose rows name it; else the device's own. So it stands in one timeline only.
    /// </summary>
    public void OwnSpans(Entity timeline, Entity device, List<(long From, long To)> into)
    {
        var edges = new SortedSet<long> { long.MinValue, long.MaxValue };
        foreach (var claim in _claims.Where(claim => claim.Device == device))
        {
            edges.Add(claim.From);
            edges.Add(claim.To);
        }

        var from = long.MinValue;
        foreach (var to in edges.Skip(1))
        {
            if (OwnerAt(device, from) == timeline)
            {
                into.Add((from, to));
            }

            from = to;
        }
    }

    private Entity OwnerAt(Entity device, long at)
    {
        var claimed = _claims.Where(claim => claim.Device == device && claim.From <= at && at < claim.To).Select(claim => claim.Patient).Distinct().Take(2).ToList();
        if (claimed.Count == 0)
        {
            claimed = [.. _namers.Where(namer => namer.Device == device).Select(namer => namer.Who).Distinct().Take(2)];
        }

        return claimed.Count == 1 ? claimed[0] : device;
    }

    private static bool IsRegulator(Care care, Entity device)
    {
        var kind = care.KindOf(device);
        return kind == 0 || kind == Answers.VacuumRegulator;
    }

    private static Entity DeviceOf(Care care, Entity deviceOrMetric) => care.DeviceOfMetric.GetValueOrDefault(deviceOrMetric, deviceOrMetric);

    private static Entity EncounterOf(in Timeline timeline, Entity act)
    {
        foreach (ref readonly var pass in timeline.Of(Concepts.SuctionPass))
        {
            if (pass.Row == act)
            {
                return pass.Encounter;
            }
        }

        return default;
    }

    private void Clear()
    {
        _claims.Clear();
        _namedByPass.Clear();
        _namers.Clear();
        _usedInPasses.Clear();
        _patientOf.Clear();
        _actsOf.Clear();
        _placesOf.Clear();
    }

    // A pass names a device also by a row of its own that the device produced.
    private void NameByRows(in Timeline timeline, Care care)
    {
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            if (care.PassOf(i) >= 0 && !facts[i].Device.IsNone)
            {
                _namedByPass.Add((timeline.Patient, DeviceOf(care, facts[i].Device)));
            }
        }
    }

    private void Claim(in Link stands)
    {
        foreach (var place in _placesOf)
        {
            if (place.To == stands.To && _patientOf.TryGetValue(place.From, out var patient))
            {
                _claims.Add((stands.From, patient, Math.Max(place.FromTime, stands.FromTime), Math.Min(place.ToTime, stands.ToTime)));
            }
        }
    }
}
