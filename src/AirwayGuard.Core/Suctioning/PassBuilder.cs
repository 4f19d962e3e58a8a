using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Passes: a Procedure of suctioning; else a suction-pass row; else rows of one column that only a pass can give. A lower kind
/// is made only from rows that joined no pass of a higher kind. One whose row says that it served another suction than the airway's
/// takes its rows with it and is not judged; where that cannot be read, or a part of a Procedure says something else than its code, nobody
/// can tell.
/// </summary>
internal static class PassBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var work = care.PassWork;
        work.Clear();
        SuctionUse.ReadRows(timeline, work.Uses);
        FindActs(timeline, work);
        SuctionUse.ReadParts(timeline, work);
        SuctionUse.NoteTwo(work.Uses, care);
        FindOthers(timeline, work);
        AddProcedures(timeline, work);
        ReadPanels(timeline, work.Panels);
        Sort(work, names);
        RowJoiner.JoinParts(timeline, work);
        RowJoiner.JoinAll(timeline, work, PassTier.Procedure);
        var firstRowPass = work.Drafts.Count;
        AddPassRows(timeline, work);
        Sort(work, names);
        if (work.Drafts.Count > firstRowPass)
        {
            RowJoiner.JoinAll(timeline, work, PassTier.SuctionPassRow);
        }

        LooseRows.Group(timeline, work, names);
        SuctionUse.NoteBeside(timeline, work, care);
        Finish(timeline, names, care, work);
    }

    // A row that is a setting, or says a use alone, is judged as a setting.
    private static void FindOthers(in Timeline timeline, PassWork work)
    {
        var facts = timeline.Facts;
        for (var i = 0; work.Uses.Count > 0 && i < facts.Length; i++)
        {
            var concept = facts[i].Concept;
            if (concept != Concepts.SuctionUse && concept != Concepts.VacuumPressure && concept != Concepts.VacuumSet && concept != Concepts.RegulatorMode
                && concept != Concepts.VacuumReadingMethod && work.Uses.GetValueOrDefault(facts[i].Row) is not 0 and var use)
            {
                if (SuctionUse.IsOther(use))
                {
                    work.Others.Add(facts[i].Row);
                }
                else if (use < 0)
                {
                    work.Unclear.Add(facts[i].Row);
                }
            }
        }
    }

    private static void FindActs(in Timeline timeline, PassWork work)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (fact.Row.Kind == EntityKind.Act && fact.About == timeline.Patient)
            {
                work.Acts.Add(fact.Row);
            }
        }
    }

    private static void AddProcedures(in Timeline timeline, PassWork work)
    {
        // A suction Procedure of which others are part is the session, not a pass of its own.
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.PartOf && link.From.Kind == EntityKind.Act && work.Acts.Contains(link.From))
            {
                work.Parents.TryAdd(link.From, link.To);
                work.Wholes.Add(link.To);
            }
        }

        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (work.Acts.Contains(fact.Row) && !work.Wholes.Contains(fact.Row))
            {
                work.PassOfRow[fact.Row] = work.Drafts.Count;
                work.Drafts.Add(PassDraft.Of(fact, PassTier.Procedure) with { Parent = work.Parents.GetValueOrDefault(fact.Row) });
            }
        }
    }

    private static void ReadPanels(in Timeline timeline, Dictionary<Entity, Entity> panels)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.MemberOf)
            {
                panels.TryAdd(link.From, link.To);
            }
        }
    }

    private static void AddPassRows(in Timeline timeline, PassWork work)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (fact.Row.Kind == EntityKind.Row && fact.About == timeline.Patient
                && (fact.Value.Kind is ValueKind.Absent or ValueKind.Yes) && !work.PassOfRow.ContainsKey(fact.Row))
            {
                work.PassOfRow[fact.Row] = work.Drafts.Count;
                work.Drafts.Add(PassDraft.Of(fact, PassTier.SuctionPassRow) with { Use = work.Uses.GetValueOrDefault(fact.Row) });
                work.OtherActs.Remove(fact.Act);
            }
        }
    }

    // Drafts that rows joined already stand before those added since, and stay where they are.
    private static void Sort(PassWork work, IEntityNames names)
    {
        work.Drafts.Sort((x, y) =>
            x.Tier != y.Tier ? ((byte)x.Tier).CompareTo((byte)y.Tier)
            : x.From != y.From ? x.From.CompareTo(y.From)
            : string.CompareOrdinal(names.NameOf(x.Anchor), names.NameOf(y.Anchor)));
        for (var i = 0; i < work.Drafts.Count; i++)
        {
            work.PassOfRow[work.Drafts[i].Anchor] = i;
        }
    }

    private static void Finish(in Timeline timeline, IEntityNames names, Care care, PassWork work)
    {
        var drafts = work.Drafts;
        Place(work, names, care);
        var places = CollectionsMarshal.AsSpan(work.Places);
        var begins = PassWork.Filled(work.Begins, work.Order.Count + 1, 0);
        var named = PassWork.Filled(work.Named, work.Order.Count, -1);
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            if (facts[i].Has(FactMarks.Timeless))
            {
                continue;
            }

            var isJoined = work.PassOfRow.TryGetValue(facts[i].Row, out var draft);
            var pass = isJoined ? places[draft] : -1;
            if (pass < 0)
            {
                care.PassOfFact[i] = isJoined && work.ByTime.Contains(facts[i].Row) ? Care.AtOtherSuction
                    : isJoined || work.Others.Contains(facts[i].Row) ? Care.OfOtherSuction : 0;
                continue;
            }

            care.PassOfFact[i] = pass + 1;
            begins[pass + 1]++;
            named[pass] = named[pass] < 0 || Ranking.IsBefore(facts[i], facts[named[pass]], names) ? i : named[pass];
        }

        for (var i = 0; i < work.Order.Count; i++)
        {
            begins[i + 1] += begins[i];
        }

        FillMembers(care, facts.Length, work);
        ReadRegulators(timeline, care, work.Regulators);
        for (var i = 0; i < work.Order.Count; i++)
        {
            var draft = drafts[work.Order[i]];
            care.PassList.Add(new PassSpan(
                named[i] < 0 ? draft.Anchor : facts[named[i]].Row, draft.Anchor, draft.Tier, draft.Encounter, draft.From, draft.To, draft.OffsetMinutes,
                begins[i], begins[i + 1] - begins[i], work.Regulators.GetValueOrDefault(draft.Anchor), draft.Parent, -1, draft.Use < 0));
        }

        NoteDurations(timeline, care);
    }

    // Passes stand in order of start; the drafts' own order only settled who is asked first. Another suction's have no place.
    private static void Place(PassWork work, IEntityNames names, Care care)
    {
        var drafts = work.Drafts;
        work.Order.Clear();
        for (var i = 0; i < drafts.Count; i++)
        {
            if (!drafts[i].IsOther)
            {
                work.Order.Add(i);
            }
        }

        care.OtherPasses = drafts.Count - work.Order.Count + work.OtherActs.Count;

        var order = CollectionsMarshal.AsSpan(work.Order);
        order.Sort((x, y) =>
            drafts[x].From != drafts[y].From ? drafts[x].From.CompareTo(drafts[y].From)
            : string.CompareOrdinal(names.NameOf(drafts[x].Anchor), names.NameOf(drafts[y].Anchor)));
        var places = PassWork.Filled(work.Places, drafts.Count, -1);
        for (var i = 0; i < order.Length; i++)
        {
            places[order[i]] = i;
        }
    }

    private static void FillMembers(Care care, int facts, PassWork work)
    {
        CollectionsMarshal.SetCount(care.MemberList, work.Begins[^1]);
        var members = CollectionsMarshal.AsSpan(care.MemberList);
        var next = PassWork.Filled(work.Next, work.Begins.Count, 0);
        CollectionsMarshal.AsSpan(work.Begins).CopyTo(next);
        for (var i = 0; i < facts; i++)
        {
            if (care.PassOfFact[i] > 0)
            {
                members[next[care.PassOfFact[i] - 1]++] = i;
            }
        }
    }

    private static void ReadRegulators(in Timeline timeline, Care care, Dictionary<Entity, Entity> regulators)
    {
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.Uses && care.KindOf(link.To) == Answers.VacuumRegulator)
            {
                regulators.TryAdd(link.From, link.To);
            }
        }
    }

    private static void NoteDurations(in Timeline timeline, Care care)
    {
        foreach (ref readonly var pass in CollectionsMarshal.AsSpan(care.PassList))
        {
            if (PassTimes.TryCharted(timeline, care, pass, out var charted, out _) && pass.HasEnd
                && Math.Abs(charted - PassTimes.SpanSeconds(pass)) > CareTimes.DurationToleranceSeconds)
            {
                care.ProblemList.Add((Diagnostics.Codes.DurationsDiffer, pass.Anchor));
            }
        }
    }
}
