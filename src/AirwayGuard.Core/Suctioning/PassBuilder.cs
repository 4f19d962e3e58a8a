using System.Runtime.InteropServices;
using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Passes: a Procedure of suctioning; else a suction-pass row; else rows of one column that only a pass can give. A lower kind
/// is made only from rows that joined no pass of a higher kind.
/// </summary>
internal static class PassBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var drafts = new List<PassDraft>();
        var passOfRow = new Dictionary<Entity, int>();
        AddProcedures(timeline, drafts, passOfRow);
        var panels = PanelsOf(timeline);
        Sort(drafts, names, passOfRow);
        RowJoiner.JoinAll(timeline, drafts, passOfRow, panels, PassTier.Procedure);
        var firstRowPass = drafts.Count;
        AddPassRows(timeline, drafts, passOfRow);
        Sort(drafts, names, passOfRow);
        if (drafts.Count > firstRowPass)
        {
            RowJoiner.JoinAll(timeline, drafts, passOfRow, panels, PassTier.SuctionPassRow);
        }

        LooseRows.Group(timeline, drafts, passOfRow, panels, names);
        Finish(timeline, names, care, drafts, passOfRow);
    }

    private static void AddProcedures(in Timeline timeline, List<PassDraft> drafts, Dictionary<Entity, int> passOfRow)
    {
        var acts = new HashSet<Entity>();
        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (fact.Row.Kind == EntityKind.Act && fact.About == timeline.Patient)
            {
                acts.Add(fact.Row);
            }
        }

        // A suction Procedure of which others are part is the session, not a pass of its own.
        var (parents, sessions) = (new Dictionary<Entity, Entity>(), new HashSet<Entity>());
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.PartOf && link.From.Kind == EntityKind.Act && acts.Contains(link.From))
            {
                parents.TryAdd(link.From, link.To);
                sessions.Add(link.To);
            }
        }

        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (acts.Contains(fact.Row) && !sessions.Contains(fact.Row))
            {
                drafts.Add(PassDraft.Of(fact, PassTier.Procedure) with { Parent = parents.GetValueOrDefault(fact.Row) });
                passOfRow[fact.Row] = drafts.Count - 1;
            }
        }
    }

    private static Dictionary<Entity, Entity> PanelsOf(in Timeline timeline)
    {
        var panels = new Dictionary<Entity, Entity>();
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.MemberOf)
            {
                panels.TryAdd(link.From, link.To);
            }
        }

        return panels;
    }

    private static void AddPassRows(in Timeline timeline, List<PassDraft> drafts, Dictionary<Entity, int> passOfRow)
    {
        foreach (ref readonly var fact in timeline.Of(Concepts.SuctionPass))
        {
            if (fact.Row.Kind == EntityKind.Row && fact.About == timeline.Patient
                && (fact.Value.Kind is ValueKind.Absent or ValueKind.Yes) && !passOfRow.ContainsKey(fact.Row))
            {
                drafts.Add(PassDraft.Of(fact, PassTier.SuctionPassRow));
                passOfRow[fact.Row] = drafts.Count - 1;
            }
        }
    }

    private static void Sort(List<PassDraft> drafts, IEntityNames names, Dictionary<Entity, int> passOfRow)
    {
        drafts.Sort((x, y) =>
            x.Tier != y.Tier ? x.Tier.CompareTo(y.Tier)
            : x.From != y.From ? x.From.CompareTo(y.From)
            : string.CompareOrdinal(names.NameOf(x.Anchor), names.NameOf(y.Anchor)));
        var byAnchor = new Dictionary<Entity, int>();
        for (var i = 0; i < drafts.Count; i++)
        {
            byAnchor[drafts[i].Anchor] = i;
        }

        foreach (var (row, index) in passOfRow.ToArray())
        {
            passOfRow[row] = byAnchor.TryGetValue(row, out var own) ? own : index;
        }
    }

    private static void Finish(in Timeline timeline, IEntityNames names, Care care, List<PassDraft> drafts, Dictionary<Entity, int> passOfRow)
    {
        // Passes stand in order of start; the drafts' own order only settled who is asked first.
        var order = Enumerable.Range(0, drafts.Count).ToArray();
        Array.Sort(order, (x, y) =>
            drafts[x].From != drafts[y].From ? drafts[x].From.CompareTo(drafts[y].From)
            : string.CompareOrdinal(names.NameOf(drafts[x].Anchor), names.NameOf(drafts[y].Anchor)));
        var place = new int[drafts.Count];
        for (var i = 0; i < order.Length; i++)
        {
            place[order[i]] = i;
        }

        var (counts, named) = (new int[drafts.Count + 1], new int[drafts.Count]);
        Array.Fill(named, -1);
        var facts = timeline.Facts;
        for (var i = 0; i < facts.Length; i++)
        {
            if (!passOfRow.TryGetValue(facts[i].Row, out var draft) || facts[i].Has(FactMarks.Timeless))
            {
                continue;
            }

            var pass = place[draft];
            care.PassOfFact[i] = pass + 1;
            counts[pass + 1]++;
            named[pass] = named[pass] < 0 || Ranking.IsBefore(facts[i], facts[named[pass]], names) ? i : named[pass];
        }

        for (var i = 0; i < drafts.Count; i++)
        {
            counts[i + 1] += counts[i];
        }

        FillMembers(care, facts.Length, counts);
        var regulators = RegulatorsByAct(timeline, care);
        for (var i = 0; i < order.Length; i++)
        {
            var draft = drafts[order[i]];
            care.PassList.Add(new PassSpan(
                named[i] < 0 ? draft.Anchor : facts[named[i]].Row, draft.Anchor, draft.Tier, draft.Encounter, draft.From, draft.To, draft.OffsetMinutes,
                counts[i], counts[i + 1] - counts[i], regulators.GetValueOrDefault(draft.Anchor), draft.Parent, -1));
        }

        NoteDurations(timeline, care);
    }

    private static void FillMembers(Care care, int facts, int[] counts)
    {
        CollectionsMarshal.SetCount(care.MemberList, counts[^1]);
        var members = CollectionsMarshal.AsSpan(care.MemberList);
        var next = counts.ToArray();
        for (var i = 0; i < facts; i++)
        {
            if (care.PassOfFact[i] > 0)
            {
                members[next[care.PassOfFact[i] - 1]++] = i;
            }
        }
    }

    private static Dictionary<Entity, Entity> RegulatorsByAct(in Timeline timeline, Care care)
    {
        var regulators = new Dictionary<Entity, Entity>();
        foreach (ref readonly var link in timeline.Links)
        {
            if (link.Kind == LinkKind.Uses && care.KindOf(link.To) == Answers.VacuumRegulator)
            {
                regulators.TryAdd(link.From, link.To);
            }
        }

        return regulators;
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
