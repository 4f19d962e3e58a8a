using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Airways in use and their episodes: from a DeviceUseStatement's period, else from the first row about it, until its end,
/// <c>none</c>, another airway, or the encounter's end.
/// </summary>
internal static class AirwayBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var changes = care.AirwayChanges;
        changes.Clear();
        CollectUses(timeline, care, changes);
        CollectRows(timeline, care, changes);
        changes.Sort(static (x, y) => x.At != y.At ? x.At.CompareTo(y.At) : x.Order != y.Order ? x.Order.CompareTo(y.Order) : x.Fact.CompareTo(y.Fact));
        Walk(timeline, names, care, changes);
        BuildEpisodes(care);
    }

    private static void CollectUses(in Timeline timeline, Care care, List<AirwayChange> changes)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind != LinkKind.UsedBy || link.To != timeline.Patient || !IsAirway(timeline, care, link.From)
                || (IsTimeless(link) && HasTimedUse(timeline, link.From)))
            {
                continue;
            }

            changes.Add(new AirwayChange(link.FromTime, 1, link.From, 0, -1));
            if (link.ToTime != long.MaxValue)
            {
                changes.Add(new AirwayChange(link.ToTime, 0, link.From, Answers.None, -1));
            }
        }
    }

    private static void CollectRows(in Timeline timeline, Care care, List<AirwayChange> changes)
    {
        var first = timeline.FirstOf(Concepts.AirwayType);
        var types = timeline.Of(Concepts.AirwayType);
        for (var i = 0; i < types.Length; i++)
        {
            if (types[i].About == timeline.Patient && types[i].Value.Kind == ValueKind.Code)
            {
                changes.Add(new AirwayChange(types[i].EffectiveFrom, types[i].Value.Symbol == Answers.None ? 0 : 2, default, types[i].Value.Symbol, first + i));
            }
        }

        first = timeline.FirstOf(Concepts.TubeInnerDiameter);
        var diameters = timeline.Of(Concepts.TubeInnerDiameter);
        for (var i = 0; i < diameters.Length; i++)
        {
            if (TwoDiameters.Tells(diameters[i], out _))
            {
                var device = diameters[i].About.Kind == EntityKind.Device ? diameters[i].About : default;
                changes.Add(new AirwayChange(diameters[i].EffectiveFrom, 3, device, 0, first + i, IsContradicted(timeline, care, i)));
            }
        }

        NoteContradictions(timeline, care, changes);
    }

    // What is charted of the patient's tube and what is charted of its own Device is about one tube.
    private static bool IsContradicted(in Timeline timeline, Care care, int index)
    {
        if (TwoDiameters.Contradict(timeline, index, default))
        {
            return true;
        }

        var facts = timeline.Of(Concepts.TubeInnerDiameter);
        var at = facts[index].EffectiveFrom;
        if (!(index > 0 && facts[index - 1].EffectiveFrom == at) && !(index + 1 < facts.Length && facts[index + 1].EffectiveFrom == at))
        {
            return false;
        }

        foreach (ref readonly var use in timeline.Links)
        {
            if (use.Kind == LinkKind.UsedBy && use.To == timeline.Patient && use.FromTime <= at && at < use.ToTime && IsAirway(timeline, care, use.From)
                && TwoDiameters.Contradict(timeline, index, use.From))
            {
                return true;
            }
        }

        return false;
    }

    // Once for an instant, at the row that stands first.
    private static void NoteContradictions(in Timeline timeline, Care care, List<AirwayChange> changes)
    {
        var told = long.MinValue;
        foreach (var change in changes)
        {
            if (change.IsContradicted && change.At != told)
            {
                care.ProblemList.Add((Diagnostics.Codes.DiametersDiffer, timeline.Facts[change.Fact].Row));
                told = change.At;
            }
        }
    }

    private static void Walk(in Timeline timeline, IEntityNames names, Care care, List<AirwayChange> changes)
    {
        var facts = timeline.Facts;
        var open = -1;
        for (var i = 0; i < changes.Count; i++)
        {
            var change = changes[i];
            if (open >= 0 && care.AirwayList[open].To <= change.At)
            {
                open = -1;
            }

            if (change.Type == Answers.None)
            {
                // The end of one device's use ends no other airway.
                if (open >= 0 && (change.Device.IsNone || care.AirwayList[open].Device == change.Device))
                {
                    End(care, open, change.At);
                    open = -1;
                }

                continue;
            }

            if (change.Order == 3 && !change.Device.IsNone)
            {
                // A row about the tube's own Device says its size; it starts no airway of its own.
                if (open >= 0 && care.AirwayList[open].Device == change.Device && !change.IsContradicted)
                {
                    care.AirwayList[open] = Sized(facts, care.AirwayList[open], change.Fact);
                }

                continue;
            }

            open = Place(timeline, names, care, change, open, open >= 0 && IsOfAnother(facts, care.AirwayList[open], changes, i));
        }
    }

    // The first size of a tube is its size all along. Told again it stays as it was; told otherwise, nobody knows from when on it is that.
    private static AirwaySpan Sized(ReadOnlySpan<Fact> facts, in AirwaySpan airway, int fact) =>
        airway.DiameterFact < 0 ? airway with { DiameterFact = fact, DiameterIsOfAll = true }
        : facts[airway.DiameterFact].Value.Comparator == facts[fact].Value.Comparator && Diameters.TryMillimetres(facts[airway.DiameterFact].Value, out var known)
            && Diameters.TryMillimetres(facts[fact].Value, out var told) && known == told ? airway
        : airway with { DiameterFact = fact, DiameterIsOfAll = false };

    private static int Place(in Timeline timeline, IEntityNames names, Care care, in AirwayChange change, int open, bool isOfAnother)
    {
        var facts = timeline.Facts;
        if (open >= 0)
        {
            var current = care.AirwayList[open];
            if (!isOfAnother)
            {
                care.AirwayList[open] = Complete(facts, names, current, change);
                return open;
            }

            End(care, open, change.At);
        }

        var isUse = change.Order == 1;
        var identity = isUse ? change.Device : facts[change.Fact].Row;
        // A new size is a new tube of the kind in use, as long as no other kind is charted.
        var type = isUse ? care.KindOf(change.Device) : change.Order == 2 ? change.Type : open >= 0 ? care.AirwayList[open].Type : 0;
        var diameter = isUse ? SizeOf(timeline, change.Device) : change.Order == 3 && !change.IsContradicted ? change.Fact : -1;
        var encounter = isUse ? default : facts[change.Fact].Encounter;
        care.AirwayList.Add(new AirwaySpan(identity, change.At, EncounterEnd(timeline, encounter, change.At), change.Device, type, diameter, -1));
        return care.AirwayList.Count - 1;
    }

    // The rows of one instant are of one airway: a kind charted beside a new size is that of the new tube.
    private static bool IsOfAnother(ReadOnlySpan<Fact> facts, in AirwaySpan current, List<AirwayChange> changes, int index)
    {
        var change = changes[index];
        if (StartsAnother(facts, current, change))
        {
            return true;
        }

        for (var i = index + 1; change.Order == 2 && i < changes.Count && changes[i].At == change.At; i++)
        {
            if (changes[i].Order == 3 && changes[i].Device.IsNone && StartsAnother(facts, current, changes[i]))
            {
                return true;
            }
        }

        return false;
    }

    // A new value, size or Device starts another airway; what was not known before only completes the one in use.
    private static bool StartsAnother(ReadOnlySpan<Fact> facts, in AirwaySpan current, in AirwayChange change)
    {
        if (change.Order == 1)
        {
            return current.Device != change.Device;
        }

        if (change.Order == 2)
        {
            return current.Type > 0 && current.Type != change.Type;
        }

        return current.DiameterFact >= 0 && !change.IsContradicted
            && Diameters.TryMillimetres(facts[current.DiameterFact].Value, out var known)
            && Diameters.TryMillimetres(facts[change.Fact].Value, out var charted)
            && known != charted;
    }

    private static AirwaySpan Complete(ReadOnlySpan<Fact> facts, IEntityNames names, in AirwaySpan current, in AirwayChange change)
    {
        var completed = current;
        if (change.Order == 2 && current.Type == 0)
        {
            completed = completed with { Type = change.Type };
        }

        if (change.Order == 3 && current.DiameterFact < 0 && !change.IsContradicted)
        {
            completed = completed with { DiameterFact = change.Fact, DiameterIsOfAll = true };
        }

        // Rows of the starting instant are members of one airway; the earliest known names it.
        if (change.Order > 1 && current.Device.IsNone && current.From == change.At && IsEarlier(facts, names, change.Fact, current.Identity, change.At))
        {
            completed = completed with { Identity = facts[change.Fact].Row };
        }

        return completed;
    }

    private static bool IsEarlier(ReadOnlySpan<Fact> facts, IEntityNames names, int candidate, Entity identity, long at)
    {
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].Row == identity && facts[i].EffectiveFrom == at)
            {
                return Ranking.IsBefore(facts[candidate], facts[i], names);
            }
        }

        return false;
    }

    private static void End(Care care, int index, long at)
    {
        var airway = care.AirwayList[index];
        care.AirwayList[index] = airway with { To = Math.Min(airway.To, Math.Max(at, airway.From)) };
    }

    private static bool IsAirway(in Timeline timeline, Care care, Entity device)
    {
        var kind = care.KindOf(device);
        return kind == Answers.TrachealTube || kind == Answers.TracheostomyTube
            || (kind == 0 && PropertyFact(timeline, Concepts.TubeInnerDiameter, device) >= 0);
    }

    private static int SizeOf(in Timeline timeline, Entity device) =>
        TwoDiameters.OfDevice(timeline, Concepts.TubeInnerDiameter, device) ? -1 : PropertyFact(timeline, Concepts.TubeInnerDiameter, device);

    internal static bool IsTimeless(in Link link) => link.FromTime == long.MinValue && link.ToTime == long.MaxValue;

    internal static bool HasTimedUse(in Timeline timeline, Entity device)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.UsedBy && link.From == device && !IsTimeless(link))
            {
                return true;
            }
        }

        return false;
    }

    internal static int PropertyFact(in Timeline timeline, Concept concept, Entity device)
    {
        var facts = timeline.Of(concept);
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].About == device && facts[i].Has(FactMarks.Timeless) && facts[i].Value.Kind != ValueKind.Unreadable)
            {
                return timeline.FirstOf(concept) + i;
            }
        }

        return -1;
    }

    // The end of the encounter a row names, even if it lies before; else of the last one that was running then.
    private static long EncounterEnd(in Timeline timeline, Entity named, long at)
    {
        var end = -1L;
        foreach (ref readonly var fact in timeline.Of(Concepts.EncounterPeriod))
        {
            if (named.IsNone ? IsOf(timeline, fact.About) && fact.EffectiveFrom <= at && at < fact.EffectiveTo : fact.About == named)
            {
                end = Math.Max(end, fact.EffectiveTo);
            }
        }

        return end < 0 ? long.MaxValue : Math.Max(at, end);
    }

    private static bool IsOf(in Timeline timeline, Entity encounter)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.EncounterOf && link.From == encounter && link.To == timeline.Patient)
            {
                return true;
            }
        }

        return false;
    }

    private static void BuildEpisodes(Care care)
    {
        care.AirwayList.Sort(static (x, y) => x.From.CompareTo(y.From));
        for (var i = 0; i < care.AirwayList.Count; i++)
        {
            var airway = care.AirwayList[i];
            var last = care.EpisodeList.Count - 1;
            if (airway.To <= airway.From)
            {
                // Charted after its encounter had ended, or replaced at once: never in use.
                continue;
            }

            if (last >= 0 && airway.From < Care.SaturatingAdd(care.EpisodeList[last].To, CareTimes.EpisodeGap))
            {
                care.EpisodeList[last] = care.EpisodeList[last] with { To = Math.Max(care.EpisodeList[last].To, airway.To) };
            }
            else
            {
                care.EpisodeList.Add(new EpisodeSpan(airway.Identity, airway.From, airway.To));
                last++;
            }

            care.AirwayList[i] = airway with { Episode = last };
        }
    }
}
