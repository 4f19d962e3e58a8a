using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>Suction is ordered every four hours, whatever is found.</summary>
internal static class OrderedByClock
{
    public static void Tell(PatientChart chart) => chart.OrderedEveryHours = 4;
}
