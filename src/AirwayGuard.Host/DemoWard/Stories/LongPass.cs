using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>One pass of 24 s in the first night; on the second day the tube is taken out.</summary>
internal static class LongPass
{
    public static void Tell(PatientChart chart)
    {
        chart.Rounds[2].Pass.Set(WardRow.PassSeconds, 24, "sec");
        var end = (40 * 60) + 50;
        foreach (var round in chart.Rounds.Where(round => round.Pass.Minute > end).ToList())
        {
            chart.Remove(round);
        }

        foreach (var column in chart.Columns.Where(column => column.Minute > end && column.Kind == ColumnKind.Ventilator).ToList())
        {
            column.Drop(WardRow.Peep);
        }

        chart.Add(new ChartColumn(end, ColumnKind.Airway) { ChartedAfter = 12 }).Set(WardRow.TubeType, WardAnswer.Extubated);
    }
}
