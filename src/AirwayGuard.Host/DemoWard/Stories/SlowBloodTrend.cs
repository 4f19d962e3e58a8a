using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>Blood streaks once in the first night, then again and again towards the end.</summary>
internal static class SlowBloodTrend
{
    public static void Tell(PatientChart chart)
    {
        foreach (var round in chart.Rounds)
        {
            round.Pass.Set(WardRow.SecretionColour, WardAnswer.White);
        }

        foreach (var fromEnd in (ReadOnlySpan<int>)[7, 3, 1])
        {
            chart.Rounds[^fromEnd].Pass.Set(WardRow.SecretionColour, WardAnswer.BloodStreaks);
        }
    }
}
