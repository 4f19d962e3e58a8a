using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Quantities;

namespace AirwayGuard.Core.Suctioning;

/// <summary>
/// Settings: vacuum readings, set values and modes; those of one line at one instant are one setting. What serves another
/// suction than the airway's is kept and not judged.
/// </summary>
internal static class SettingBuilder
{
    public static void Build(in Timeline timeline, IEntityNames names, Care care)
    {
        var (drafts, owners) = (care.SettingDrafts, care.Owners);
        drafts.Clear();
        owners.Read(timeline, care);
        if (timeline.Patient.Kind == EntityKind.Device && owners.HasPatient(timeline.Patient))
        {
            // Its rows are judged with its patients; only what falls due of the device itself is left here.
            return;
        }

        Collect(timeline, care, owners, Concepts.VacuumPressure, drafts);
        Collect(timeline, care, owners, Concepts.VacuumSet, drafts);
        Collect(timeline, care, owners, Concepts.RegulatorMode, drafts);
        drafts.Sort((x, y) =>
            x.At != y.At ? x.At.CompareTo(y.At)
            : x.Line != y.Line ? string.CompareOrdinal(names.NameOf(x.Line.Entity), names.NameOf(y.Line.Entity))
            : x.Fact.CompareTo(y.Fact));
        for (var i = 0; i < drafts.Count;)
        {
            var end = i + 1;
            while (end < drafts.Count && drafts[end].At == drafts[i].At && drafts[end].Line == drafts[i].Line)
            {
                end++;
            }

            Add(timeline, names, care, drafts, i, end);
            i = end;
        }
    }

    private static void Collect(in Timeline timeline, Care care, RegulatorOwners owners, Concept concept, List<SettingDraft> drafts)
    {
        var facts = timeline.Of(concept);
        for (var i = 0; i < facts.Length; i++)
        {
            ref readonly var fact = ref facts[i];
            if (fact.Has(FactMarks.Timeless) || fact.Value.Kind is ValueKind.NotPerformed or ValueKind.Absent)
            {
                continue;
            }

            var index = timeline.FirstOf(concept) + i;
            var regulator = RegulatorOwners.RegulatorOf(fact, care, index);
            var owned = fact.About == timeline.Patient ? Ownership.Ours : owners.Owner(timeline.Patient, fact);
            if (owned == Ownership.Others)
            {
                continue;
            }

            var use = SuctionUse.Of(timeline, care, index, regulator);
            if (SuctionUse.IsOther(use) || (use == 0 && care.IsOfOtherSuction(index) && !care.IsAtOtherSuction(index)))
            {
                continue;
            }

            NoteTwo(care, fact.Row, use);

            var unclear = owned == Ownership.Unclear;
            // A row about a device or place counts as airway suction only where a pass of the patient names it.
            var useUnknown = use < 0 || (use == 0 && (care.IsOfUnknownUse(index) || care.IsAtOtherSuction(index)))
                || (use == 0 && fact.About.Kind != EntityKind.Patient && !owners.IsNamedByAPass(timeline.Patient, regulator));
            var line = regulator.IsNone ? care.EpisodeLine(fact.EffectiveFrom, timeline.Patient) : new Line(LineKind.Regulator, regulator);
            drafts.Add(new SettingDraft(fact.EffectiveFrom, line, index, regulator, useUnknown, unclear));
        }
    }

    // Of rows beside the setting's own, or of its device; what its own row says is told with the passes.
    private static void NoteTwo(Care care, Entity row, int use)
    {
        if (SuctionUse.AreTwo(use) && !care.ProblemList.Contains((Codes.UsesDiffer, row)))
        {
            care.ProblemList.Add((Codes.UsesDiffer, row));
        }
    }

    private static void Add(in Timeline timeline, IEntityNames names, Care care, List<SettingDraft> drafts, int from, int to)
    {
        var first = care.SettingFactList.Count;
        var named = drafts[from].Fact;
        var (useUnknown, unclear, pass) = (true, false, -1);
        for (var i = from; i < to; i++)
        {
            var draft = drafts[i];
            care.SettingFactList.Add(draft.Fact);
            named = Ranking.IsBefore(timeline.Facts[draft.Fact], timeline.Facts[named], names) ? draft.Fact : named;
            useUnknown &= draft.UseUnknown;
            unclear |= draft.PatientUnclear;
            pass = Math.Max(pass, care.PassOf(draft.Fact));
        }

        ref readonly var fact = ref timeline.Facts[named];
        care.SettingList.Add(new SettingSpan(
            fact.Row, drafts[from].At, fact.OffsetMinutes, drafts[from].Line, drafts[from].Regulator, first, to - from, pass, useUnknown, unclear));
    }
}
