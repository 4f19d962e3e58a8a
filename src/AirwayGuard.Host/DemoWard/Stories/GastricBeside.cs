using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>
/// The airway's regulator sends its set value by the hour; a second one at the bed drains the stomach, intermittently, which is as
/// it should be.
/// </summary>
internal static class GastricBeside
{
    public static void Tell(PatientChart chart)
    {
        chart.StreamedMetric = chart.Patient.Regulator + "-set";
        chart.GastricRegulator = chart.Patient.Regulator + "-gastric";
        for (var hour = 0; hour < 48; hour++)
        {
            chart.Add(new ChartColumn((hour * 60) + 1, ColumnKind.Stream) { Regulator = "DeviceMetric/" + chart.StreamedMetric })
                .Set(WardRow.VacuumSet, chart.Patient.Gauge.Usual, "mmHg");
        }

        for (var hour = 1; hour < 48; hour += 6)
        {
            chart.Add(new ChartColumn((hour * 60) + 8, ColumnKind.Regulator) { Regulator = "Device/" + chart.GastricRegulator, ChartedAfter = 6 })
                .Set(WardRow.SuctionUse, WardAnswer.GastricTube)
                .Set(WardRow.RegulatorMode, WardAnswer.Intermittent)
                .Set(WardRow.WallVacuum, 60, "mmHg")
                .Set(WardRow.GastricVacuum, 60, "mmHg");
        }
    }
}
