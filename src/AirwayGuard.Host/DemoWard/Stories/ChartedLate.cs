using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>Born early; in a busy night two suctions are charted hours after they were done.</summary>
internal static class ChartedLate
{
    public static void Tell(PatientChart chart)
    {
        chart.Columns.First(column => column.Kind == ColumnKind.Airway)
            .Set(WardRow.GestationalAge, 33, "wk").Set(WardRow.Weight, 1.84m, "kg");
        foreach (var column in chart.Rounds.Skip(2).Take(2).SelectMany(round => round.Columns))
        {
            column.ChartedAfter = 5 * 60;
        }
    }
}
