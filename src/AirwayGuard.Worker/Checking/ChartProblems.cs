using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Worker.Checking;

/// <summary>Problems that only show once a patient's rows are put together.</summary>
internal static class ChartProblems
{
    public static List<Problem> Of(in Timeline timeline, Care care, IEntityNames names)
    {
        var problems = new List<Problem>();
        foreach (var (code, where) in care.Problems)
        {
            problems.Add(new Problem(code, names.NameOf(where), code.Title + "."));
        }

        if (care.OtherPasses > 0)
        {
            problems.Add(new Problem(Codes.OtherSuction, names.NameOf(timeline.Patient), Left(care.OtherPasses)));
        }

        NoteSigns(timeline, names, problems);
        NoteFutureBirth(timeline, care, names, problems);
        return problems;
    }

    private static string Left(int passes) => passes == 1
        ? "One pass is charted as of another suction than the airway's; it was not judged."
        : FormattableString.Invariant($"{passes} passes are charted as of another suction than the airway's; they were not judged.");

    // Both signs in one row's history: once, at the first row that turns.
    private static void NoteSigns(in Timeline timeline, IEntityNames names, List<Problem> problems)
    {
        foreach (var concept in (ReadOnlySpan<Concept>)[Concepts.VacuumPressure, Concepts.VacuumSet])
        {
            var seen = new Dictionary<(Entity, int), bool>();
            var told = new HashSet<(Entity, int)>();
            foreach (ref readonly var fact in timeline.Of(concept))
            {
                if (!fact.Value.IsNumber || fact.Value.Digits == 0)
                {
                    continue;
                }

                var row = (fact.About, fact.Value.Symbol);
                if (seen.TryGetValue(row, out var negative) && negative != fact.Value.Digits < 0 && told.Add(row))
                {
                    problems.Add(new Problem(Codes.BothSigns, names.NameOf(fact.Row), "What is charted under this row's code of this patient holds vacuum with and without a minus sign."));
                }

                seen.TryAdd(row, fact.Value.Digits < 0);
            }
        }
    }

    // A row's mistyped year is told at the row; a mistyped birth date, behind which all rows lie, once at the patient.
    private static void NoteFutureBirth(in Timeline timeline, Care care, IEntityNames names, List<Problem> problems)
    {
        var before = new SortedSet<string>(StringComparer.Ordinal);
        var others = 0;
        foreach (var kind in (ReadOnlySpan<SubjectKind>)[SubjectKind.Setting, SubjectKind.Pass, SubjectKind.Order, SubjectKind.Cuff])
        {
            for (var i = 0; i < Subjects.Count(care, kind); i++)
            {
                var subject = Subjects.At(timeline, care, kind, i);
                Ages.TryBands(timeline, subject.From, subject.OffsetMinutes, out _, out _, out var isFuture);
                if (isFuture)
                {
                    before.Add(names.NameOf(subject.Identity));
                }
                else
                {
                    others++;
                }
            }
        }

        if (before.Count > 0 && others == 0)
        {
            problems.Add(new Problem(Codes.FutureBirthDate, names.NameOf(timeline.Patient), "The birth date lies after all that was charted, so that nothing was judged by age."));
            return;
        }

        foreach (var row in before)
        {
            problems.Add(new Problem(Codes.FutureBirthDate, row, "This is dated before the birth date of its patient, so that it was not judged by age."));
        }
    }
}
