using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>Before one pass nobody charts that oxygen was raised.</summary>
internal static class PreoxygenationMissed
{
    public static void Tell(PatientChart chart)
    {
        if (chart.Rounds[4].Before is { } before)
        {
            chart.Remove(before);
        }
    }
}
