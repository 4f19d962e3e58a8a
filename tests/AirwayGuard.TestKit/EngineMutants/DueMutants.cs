using System.Collections.Immutable;

namespace AirwayGuard.TestKit.EngineMutants;

/// <summary>Mutants of time that runs until something is charted.</summary>
internal static class DueMutants
{
    public static ImmutableArray<EngineMutant> All { get; } =
    [
        new("due-a-step-early", "Judging/DueJudge.cs",
            "settings.AsOf <= over + due.Slack || settings.AsOf < falls",
            "settings.AsOf < over + due.Slack || settings.AsOf < falls",
            "What is allowed up to now is told as overdue now."),
        new("month-of-30-days", "Judging/DueJudge.cs",
            ".AddMonths((int)amount).Ticks",
            ".AddDays(30 * (int)amount).Ticks",
            "A calibration is overdue five days before its year is over."),
        new("not-assessed-is-assessed", "Measures/AssessmentRuns.cs",
            "assessed[i].About == timeline.Patient && assessed[i].Value.Kind == ValueKind.Yes)",
            "assessed[i].About == timeline.Patient)",
            "An assessment charted as not done starts the time anew."),
        new("tube-as-tracheostomy", "Measures/TrachealTubeAssessmentAge.cs",
            "Answers.TrachealTube, into)",
            "Answers.TracheostomyTube, into)",
            "A tracheal tube that nobody looked at is not told."),
        new("tracheostomy-as-tube", "Measures/TracheostomyAssessmentAge.cs",
            "Answers.TracheostomyTube, into)",
            "Answers.TrachealTube, into)",
            "A tracheostomy that nobody looked at is not told."),
        new("read-only-until-the-first", "Measures/VacuumReadingAge.cs",
            "NotAfter: last + SuctionWithin));",
            "NotAfter: first + SuctionWithin));",
            "An old reading is not told though suction went on."),
        new("last-use-of-catheter", "Measures/ClosedCatheterUse.cs",
            "first = Math.Min(first, link.FromTime);",
            "first = Math.Max(first == long.MaxValue ? 0 : first, link.FromTime);",
            "A closed catheter in use for days counts from when it was last named."),
        new("month-is-its-first-day", "Measures/RegulatorCalibration.cs",
            "precision >= 6 ? start.AddMonths(1) :",
            "precision >= 6 ? start.AddDays(1) :",
            "A month of calibration counts as its first day, and the regulator is overdue a month early."),
        new("survey-never-ends", "Measures/WallSupplySurveys.cs",
            "next < 0 ? long.MaxValue : timeline.Facts[next].EffectiveFrom",
            "long.MaxValue",
            "An outlet that was read in time is told as unread."),
        new("episode-offset-lost", "Measures/EpisodeStart.cs",
            "return rows[i].OffsetMinutes;",
            "return 0;",
            "Near midnight the age is that of another day than the ward's."),
    ];
}
