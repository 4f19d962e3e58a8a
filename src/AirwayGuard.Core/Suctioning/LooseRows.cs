using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Passes from rows alone: rows of one patient and encounter with the same grouping key, panel or instant, among them one that
/// only a pass can give. A vacuum or catheter row alone is a setting.
/// </summary>
internal static class LooseRows
{
    public static void Group(in Timeline timeline, PassWork work, IEntityNames names)
    {
        FindMakers(timeline, work, names);
        if (work.Makers.Count == 0)
        {
            return;
        }

        work.Columns.Fill(timeline, work.Panels);
        foreach (var (_, row, seed) in work.Makers)
        {
            if (work.PassOfRow.ContainsKey(row))
            {
                continue;
            }

            Gather(timeline, work, seed);
            foreach (var member in work.Gathered)
            {
                work.PassOfRow.TryAdd(timeline.Facts[member].Row, work.Drafts.Count);
            }

            work.Drafts.Add(Draft(timeline, names, work));
        }
    }

    private static void FindMakers(in Timeline timeline, PassWork work, IEntityNames names)
    {
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].About == timeline.Patient && facts[i].Row.Kind == EntityKind.Row && MakesAPass(facts[i]) && !work.PassOfRow.ContainsKey(facts[i].Row)
                && !work.Others.Contains(facts[i].Row))
            {
                work.Makers.Add((facts[i].EffectiveFrom, facts[i].Row, i));
            }
        }

        work.Makers.Sort((x, y) =>
            x.From != y.From ? x.From.CompareTo(y.From)
            : x.Row != y.Row ? string.CompareOrdinal(names.NameOf(x.Row), names.NameOf(y.Row))
            : x.Fact.CompareTo(y.Fact));
    }

    private static bool MakesAPass(in Fact fact) => fact.Value.Kind is not (ValueKind.NotPerformed or ValueKind.Absent)
        && (fact.Concept == Concepts.PassDuration || (fact.Concept == Concepts.PassCount && fact.Value.IsNumber && fact.Value.Amount >= 1m)
            || fact.Concept == Concepts.HandTechnique
            || (fact.Value.Kind != ValueKind.Unreadable
                && (fact.Concept == Concepts.InsertionDepth || fact.Concept == Concepts.DepthTechnique || fact.Concept == Concepts.SalineInstilled || fact.Concept == Concepts.SuctionReaction || fact.Concept == Concepts.VentilatorDisconnected)));

    // Widens from the seed until nothing more shares a key, a panel or an instant with what is in.
    private static void Gather(in Timeline timeline, PassWork work, int seed)
    {
        var facts = timeline.Facts;
        var start = facts[seed].EffectiveFrom;
        var encounter = facts[seed].Encounter;
        // Columns with keys of their own are two columns, even at one instant.
        var key = facts[seed].Group;
        var members = work.Gathered;
        members.Clear();
        members.Add(seed);
        work.Taken.Clear();
        work.Taken.Add(seed);
        for (var next = 0; next < members.Count; next++)
        {
            work.Columns.Beside(facts[members[next]], work.Panels, work.Beside);
            foreach (var i in work.Beside)
            {
                ref readonly var fact = ref facts[i];
                if (work.PassOfRow.ContainsKey(fact.Row) || work.Others.Contains(fact.Row) || Math.Abs(fact.EffectiveFrom - start) > CareTimes.GroupSpan
                    || !(encounter.IsNone || fact.Encounter.IsNone || fact.Encounter == encounter)
                    || !(key.IsNone || fact.Group.IsNone || fact.Group == key) || !work.Taken.Add(i))
                {
                    continue;
                }

                encounter = encounter.IsNone ? fact.Encounter : encounter;
                key = key.IsNone ? fact.Group : key;
                members.Add(i);
            }
        }

        members.Sort();
    }

    private static PassDraft Draft(in Timeline timeline, IEntityNames names, PassWork work)
    {
        var facts = timeline.Facts;
        var use = 0;
        var (first, named, period) = (-1, -1, -1);
        Entity encounter = default;
        foreach (var index in work.Gathered)
        {
            ref readonly var fact = ref facts[index];
            use = MakesAPass(fact) ? Math.Min(use, work.Uses.GetValueOrDefault(fact.Row)) : use;
            if (MakesAPass(fact) && (first < 0 || fact.EffectiveFrom < facts[first].EffectiveFrom))
            {
                first = index;
            }

            // Only a row that makes the pass anchors it; which member names it in keys is another matter.
            named = MakesAPass(fact) && (named < 0 || Ranking.IsBefore(fact, facts[named], names)) ? index : named;
            encounter = encounter.IsNone ? fact.Encounter : encounter;
            if (MakesAPass(fact) && fact.EffectiveTo != fact.EffectiveFrom
                && (period < 0 || fact.EffectiveFrom < facts[period].EffectiveFrom))
            {
                period = index;
            }
        }

        var times = facts[period >= 0 ? period : first];
        return PassDraft.Of(times, PassTier.LooseRows) with { Anchor = facts[named].Row, Encounter = encounter, Use = use };
    }
}
