using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>An inner cannula is put into the tracheostomy tube; the usual catheter, right for the tube, is now too wide.</summary>
internal static class InnerCannulaPlaced
{
    public static void Tell(PatientChart chart) => chart.InnerCannula = new InnerCannula(8.5m, 27 * 60);
}
