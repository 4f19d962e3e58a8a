using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Passes from rows alone: rows of one patient and encounter with the same grouping key, panel or instant, among them one that
/// only a pass can give. A vacuum or catheter row alone is a setting.
/// </summary>
internal static class LooseRows
{
    public static void Group(in Timeline timeline, List<PassDraft> drafts, Dictionary<Entity, int> passOfRow, Dictionary<Entity, Entity> panels, IEntityNames names)
    {
        var makers = Makers(timeline, passOfRow, names);
        if (makers.Count == 0)
        {
            return;
        }

        var columns = new ColumnIndex(timeline, panels);
        for (var m = 0; m < makers.Count; m++)
        {
            var seed = timeline.Facts[makers[m]];
            if (passOfRow.ContainsKey(seed.Row))
            {
                continue;
            }

            var members = new List<int>();
            Gather(timeline, passOfRow, columns, makers[m], members);
            var draft = Draft(timeline, names, members);
            drafts.Add(draft);
            foreach (var member in members)
            {
                passOfRow.TryAdd(timeline.Facts[member].Row, drafts.Count - 1);
            }
        }
    }

    private static List<int> Makers(in Timeline timeline, Dictionary<Entity, int> passOfRow, IEntityNames names)
    {
        var makers = new List<int>();
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].About == timeline.Patient && facts[i].Row.Kind == EntityKind.Row && MakesAPass(facts[i]) && !passOfRow.ContainsKey(facts[i].Row))
            {
                makers.Add(i);
            }
        }

        var copy = facts.ToArray();
        makers.Sort((x, y) => copy[x].EffectiveFrom != copy[y].EffectiveFrom
            ? copy[x].EffectiveFrom.CompareTo(copy[y].EffectiveFrom)
            : string.CompareOrdinal(names.NameOf(copy[x].Row), names.NameOf(copy[y].Row)));
        return makers;
    }

    private static bool MakesAPass(in Fact fact) => fact.Value.Kind is not (ValueKind.NotPerformed or ValueKind.Absent)
        && (fact.Concept == Concepts.PassDuration || (fact.Concept == Concepts.PassCount && fact.Value.IsNumber && fact.Value.Amount >= 1m)
            || fact.Concept == Concepts.InsertionDepth || fact.Concept == Concepts.DepthTechnique || fact.Concept == Concepts.HandTechnique
            || fact.Concept == Concepts.SalineInstilled || fact.Concept == Concepts.SuctionReaction || fact.Concept == Concepts.VentilatorDisconnected);

    // Widens from the seed until nothing more shares a key, a panel or an instant with what is in.
    private static void Gather(in Timeline timeline, Dictionary<Entity, int> passOfRow, ColumnIndex columns, int seed, List<int> members)
    {
        var facts = timeline.Facts;
        var start = facts[seed].EffectiveFrom;
        var encounter = facts[seed].Encounter;
        // Columns with keys of their own are two columns, even at one instant.
        var key = facts[seed].Group;
        var taken = new HashSet<int> { seed };
        members.Add(seed);
        for (var next = 0; next < members.Count; next++)
        {
            foreach (var i in columns.Beside(facts[members[next]]))
            {
                ref readonly var fact = ref facts[i];
                if (passOfRow.ContainsKey(fact.Row) || Math.Abs(fact.EffectiveFrom - start) > CareTimes.GroupSpan
                    || !(encounter.IsNone || fact.Encounter.IsNone || fact.Encounter == encounter)
                    || !(key.IsNone || fact.Group.IsNone || fact.Group == key) || !taken.Add(i))
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

    private static PassDraft Draft(in Timeline timeline, IEntityNames names, List<int> members)
    {
        var facts = timeline.Facts;
        var (first, named, period) = (-1, -1, -1);
        Entity encounter = default;
        foreach (var index in members)
        {
            ref readonly var fact = ref facts[index];
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
        return PassDraft.Of(times, PassTier.LooseRows) with { Anchor = facts[named].Row, Encounter = encounter };
    }
}
