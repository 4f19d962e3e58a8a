using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>At the last pass the vacuum is that of an older child.</summary>
internal static class NeonateOverCeiling
{
    public static void Tell(PatientChart chart) => chart.LastRound.Pass.Set(chart.Patient.Gauge.Row, 100, "mmHg");
}
