using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Joins rows to passes by partOf, hasMember, grouping key, equal instant, or by lying in the pass's period, in that order, and with the keys of rows that joined so; none
/// joins two. Components are facts of one row and join with it.
/// </summary>
internal static class RowJoiner
{
    /// <summary>
    /// What is part of a Procedure is of it whatever it says was suctioned. Where that is something else than the Procedure's code says, or
    /// cannot be read, nobody can tell what was.
    /// </summary>
    public static void JoinParts(in Timeline timeline, PassWork work)
    {
        if (!IsAny(work, PassTier.Procedure))
        {
            return;
        }

        foreach (ref readonly var fact in timeline.Facts)
        {
            if (fact.Row.Kind == EntityKind.Row && !fact.Has(FactMarks.Timeless)
                && (work.Others.Contains(fact.Row) || work.Unclear.Contains(fact.Row) || SuctionUse.IsAlone(timeline, fact))
                && !fact.Act.IsNone && work.PassOfRow.TryGetValue(fact.Act, out var pass) && work.Drafts[pass].Tier == PassTier.Procedure)
            {
                work.PassOfRow[fact.Row] = pass;
                work.Drafts[pass] = work.Drafts[pass] with { Use = SuctionUse.BesideProcedure(work.Drafts[pass].Use, work.Uses.GetValueOrDefault(fact.Row)) };
            }
        }
    }

    /// <param name="tier">Only passes of this kind are asked; rows that joined already stay.</param>
    public static void JoinAll(in Timeline timeline, PassWork work, PassTier tier)
    {
        if (!IsAny(work, tier))
        {
            return;
        }

        var facts = timeline.Facts;
        for (var step = 0; step < 6; step++)
        {
            if (step == 5)
            {
                ReadKeysOfJoined(facts, work, tier);
            }

            for (var i = 0; i < facts.Length; i++)
            {
                ref readonly var fact = ref facts[i];
                if (fact.Row.Kind != EntityKind.Row || fact.Has(FactMarks.Timeless) || work.PassOfRow.ContainsKey(fact.Row))
                {
                    continue;
                }

                var isOther = work.Others.Contains(fact.Row);
                var pass = step == 5
                    ? (fact.About == timeline.Patient && !fact.Group.IsNone && work.Keys.TryGetValue(fact.Group, out var keyed) && Near(work.Drafts[keyed], fact) ? keyed : -1)
                    : Find(timeline.Patient, fact, work, tier, step, isOther);
                if (pass >= 0 && (!isOther || work.Drafts[pass].IsOther))
                {
                    work.PassOfRow[fact.Row] = pass;
                    if (step is 3 or 4)
                    {
                        work.ByTime.Add(fact.Row);
                    }
                }
            }
        }
    }

    private static bool IsAny(PassWork work, PassTier tier)
    {
        foreach (ref readonly var draft in CollectionsMarshal.AsSpan(work.Drafts))
        {
            if (draft.Tier == tier)
            {
                return true;
            }
        }

        return false;
    }

    // Rows that joined bring the others of their column with them.
    private static void ReadKeysOfJoined(ReadOnlySpan<Fact> facts, PassWork work, PassTier tier)
    {
        work.Keys.Clear();
        foreach (ref readonly var fact in facts)
        {
            if (!fact.Group.IsNone && work.PassOfRow.TryGetValue(fact.Row, out var pass) && work.Drafts[pass].Tier == tier)
            {
                work.Keys[fact.Group] = work.Keys.TryGetValue(fact.Group, out var known) ? Math.Min(known, pass) : pass;
            }
        }
    }

    private static bool Near(in PassDraft draft, in Fact fact) =>
        draft.Fits(fact.Encounter) && Math.Abs(draft.From - fact.EffectiveFrom) <= CareTimes.GroupSpan;

    // A row that says that it served another suction is of no pass of the airway; one that says nothing is rather of the airway's.
    private static int Find(Entity patient, in Fact fact, PassWork work, PassTier tier, int step, bool isOther)
    {
        var drafts = work.Drafts;
        switch (step)
        {
            case 0:
                return !fact.Act.IsNone && work.PassOfRow.TryGetValue(fact.Act, out var act) && drafts[act].Tier == tier ? act : -1;
            case 1:
                return PanelPass(fact.Row, work, tier);
        }

        if (fact.About != patient)
        {
            return -1;
        }

        var found = -1;
        var first = FirstNear(drafts, fact.EffectiveFrom, step, tier);
        for (var i = first; i < drafts.Count && drafts[i].Tier == tier; i++)
        {
            var draft = drafts[i];
            if (step != 2 && draft.From > fact.EffectiveFrom)
            {
                break;
            }

            if (draft.Fits(fact.Encounter) && step switch
            {
                2 => !fact.Group.IsNone && draft.Group == fact.Group && Math.Abs(draft.From - fact.EffectiveFrom) <= CareTimes.GroupSpan,
                3 => draft.From == fact.EffectiveFrom,
                _ => draft.To >= 0 && draft.From <= fact.EffectiveFrom && fact.EffectiveTo <= draft.To,
            })
            {
                if (draft.IsOther == isOther)
                {
                    return i;
                }

                // Another column's rows are not told by their time alone to be of another suction.
                if (step != 2 && !draft.Group.IsNone && !fact.Group.IsNone && draft.Group != fact.Group)
                {
                    continue;
                }

                found = found < 0 && !isOther ? i : found;
            }
        }

        return found;
    }

    // Drafts of a tier stand in order of start: only those that can match are looked at.
    private static int FirstNear(List<PassDraft> drafts, long at, int step, PassTier tier)
    {
        var notBefore = Care.SaturatingAdd(at, step == 3 ? 0 : step == 2 ? -CareTimes.GroupSpan : -TimeSpan.TicksPerDay);
        var (low, high) = (0, drafts.Count);
        while (low < high)
        {
            var middle = (low + high) >>> 1;
            if (drafts[middle].Tier < tier || (drafts[middle].Tier == tier && drafts[middle].From < notBefore))
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    private static int PanelPass(Entity row, PassWork work, PassTier tier)
    {
        // A member of a panel that is (or belongs to) a pass; or the panel whose member is one.
        var (drafts, passOfRow, panels) = (work.Drafts, work.PassOfRow, work.Panels);
        if (panels.TryGetValue(row, out var panel) && passOfRow.TryGetValue(panel, out var pass) && drafts[pass].Tier == tier)
        {
            return pass;
        }

        foreach (var (member, itsPanel) in panels)
        {
            if ((itsPanel == row || (panels.TryGetValue(row, out var shared) && itsPanel == shared))
                && passOfRow.TryGetValue(member, out var memberPass) && drafts[memberPass].Tier == tier)
            {
                return memberPass;
            }
        }

        return -1;
    }
}
