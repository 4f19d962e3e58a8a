using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>A pass of 8 s is charted as 80 s, and put right later.</summary>
internal static class DurationCorrected
{
    public static void Tell(PatientChart chart) => chart.Correct(chart.Rounds[4].Pass, WardRow.PassSeconds, wrong: 80, right: 8, "sec");
}
