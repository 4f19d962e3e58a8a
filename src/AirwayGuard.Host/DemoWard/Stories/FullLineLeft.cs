using AirwayGuard.Host.DemoWard.Charting;

namespace AirwayGuard.Host.DemoWard.Stories;

/// <summary>After the last suction the regulator is turned to full line and left there.</summary>
internal static class FullLineLeft
{
    public static void Tell(PatientChart chart)
    {
        foreach (var hour in (ReadOnlySpan<int>)[45, 47])
        {
            chart.Add(new ChartColumn((hour * 60) + 50, ColumnKind.Regulator) { Regulator = chart.NamedRegulator, ChartedAfter = 4 })
                .Set(WardRow.RegulatorMode, WardAnswer.Full);
        }
    }
}
