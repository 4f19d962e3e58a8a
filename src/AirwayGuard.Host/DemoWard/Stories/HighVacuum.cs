using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>A pass at a vacuum well over the ceiling; turned down within the hour and read again with the tubing occluded.</summary>
internal static class HighVacuum
{
    public static void Tell(PatientChart chart)
    {
        var pass = chart.Rounds[3].Pass.Set(chart.Patient.Gauge.Row, 220, "mmHg");
        chart.Add(new ChartColumn((pass.Minute / 60 * 60) + 52, ColumnKind.Regulator) { Regulator = chart.NamedRegulator, ChartedAfter = 5 })
            .Set(chart.Patient.Gauge.Row, 115, "mmHg")
            .Set(WardRow.VacuumMethod, WardAnswer.Occluded);
    }
}
