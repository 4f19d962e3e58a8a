using System.Collections.Immutable;
using AirwayGuard.Core.Diagnostics;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Measures;

namespace AirwayGuard.Rules.Reading;

/// <summary>The measure a rule or guard names.</summary>
internal static class MeasureKey
{
    private static readonly ImmutableArray<string> Known = [.. MeasureCatalog.All.Select(measure => measure.Id)];

    public static Measure? Find(string id, Place at, Faults faults)
    {
        if (MeasureCatalog.TryFind(id, out var measure))
        {
            return measure;
        }

        faults.Add(Codes.MeasureUnknown, at, $"There is no measure {Words.Quote(id)}.{Words.DidYouMean(id, Known)}", Words.Listed(Known));
        return null;
    }

    /// <summary>Each kind the rule judges must be one the measure judges.</summary>
    public static void CheckJudges(Measure measure, ImmutableArray<SubjectKind> judges, Place at, Faults faults)
    {
        foreach (var kind in judges.Where(kind => !measure.Judges.Contains(kind)))
        {
            faults.Add(
                Codes.JudgesNotOfMeasure, at, $"The rule judges {Words.Of(Words.Subjects, kind)}, which {measure.Id} does not.",
                Words.Listed(measure.Judges.Select(known => Words.Of(Words.Subjects, known))));
        }
    }
}
