using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Vacuum depth of a setting while a risk of bleeding is charted, in mm[Hg] or as charted. Without one it does not apply; where that cannot be read, what is above the limit stays open.</summary>
public static class VacuumAtBleedingRisk
{
    public static readonly Measure Measure = VacuumPressure.Measure with
    {
        Id = "vacuum-at-bleeding-risk",
        Reads = [.. VacuumPressure.Measure.Reads, Concepts.BleedingRisk],
        LooksBack = TimeSpan.FromDays(400),
        Meaning = "vacuum depth below ambient, read or set, while a risk of bleeding is charted",
        Function = Take,
    };

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        var risk = Measured.Start();
        Circumstances.Take(Concepts.BleedingRisk, subject, timeline, ref risk);
        if (risk.Code == "yes" || risk.Missing != Missing.Nothing)
        {
            VacuumPressure.Measure.Function(subject, timeline, care, ref result);
            result.Circumstance = risk.FactAt(0);
            result.BreachIs = risk.Missing;
        }
    }
}
