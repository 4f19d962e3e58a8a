using AirwayGuard.Core.Charting;
using AirwayGuard.Core.Judging;
using AirwayGuard.Core.Quantities;
using AirwayGuard.Core.Suctioning;

namespace AirwayGuard.Core.Measures;

/// <summary>Mode of the regulator as a setting charts it.</summary>
public static class RegulatorMode
{
    public static readonly Measure Measure = new(
        "regulator-mode", Dimension.Code, Unit.None, [SubjectKind.Setting],
        [Concepts.RegulatorMode, Concepts.SuctionUse],
        TimeSpan.FromHours(12), TimeSpan.Zero, ["regulated", "intermittent", "full-line", "off"], MayBeMissing: false,
        "mode of the vacuum regulator",
        Take);

    private static void Take(in Subject subject, in Timeline timeline, Care care, ref Measured result)
    {
        ref readonly var setting = ref care.Settings[subject.Index];
        var mode = RegulatorModes.OwnFact(timeline, care, setting);
        if (mode < 0)
        {
            return;
        }

        result.Uses(mode);
        result.Charted = mode;
        if (setting.Lacks != Missing.Nothing)
        {
            result.Missing = setting.Lacks;
            return;
        }

        ref readonly var fact = ref timeline.Facts[mode];
        if (fact.Value.Kind != ValueKind.Code)
        {
            result.Missing = Missing.RegulatorMode;
            return;
        }

        result.Set(Answers.Code(fact.Value.Symbol));
        result.Clearing = ClearingStrength.Full;
    }
}
