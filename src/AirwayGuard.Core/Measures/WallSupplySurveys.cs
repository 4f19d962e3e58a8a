using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Time since an outlet's whole vacuum was last read.</summary>
public static class WallSupplySurveys
{
    public static readonly Measure Measure = new(
        "time-since-wall-supply-read", Dimension.Duration, Unit.Day, [SubjectKind.Due],
        [Concepts.FullLineVacuum],
        TimeSpan.FromDays(400), TimeSpan.Zero, [], MayBeMissing: false,
        "time since the outlet's whole vacuum was last read",
        DueTimes.Elapsed)
    {
        Runs = List,
    };

    private static void List(in Timeline timeline, Care care, ICollection<DueRun> into)
    {
        var rows = care.OutletRows;
        for (var i = 0; i < rows.Length; i++)
        {
            ref readonly var row = ref timeline.Facts[rows[i]];
            var next = i + 1 < rows.Length ? rows[i + 1] : -1;
            into.Add(new DueRun(
                new Line(LineKind.Outlet, timeline.Patient), row.EffectiveFrom, next < 0 ? long.MaxValue : timeline.Facts[next].EffectiveFrom,
                long.MinValue, rows[i], next, row.OffsetMinutes));
        }
    }
}
