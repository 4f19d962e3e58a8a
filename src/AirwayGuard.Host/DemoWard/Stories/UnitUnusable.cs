using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>One vacuum is charted in divisions of the dial, which no one can convert.</summary>
internal static class UnitUnusable
{
    public static void Tell(PatientChart chart) => chart.Rounds[3].Pass.Set(chart.Patient.Gauge.Row, 13, "div");
}
